package org.barmap.browser;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;

/** A recording made up for a test: short tones at even distances, as a WAV file. */
final class ClickTrack {

  private static final int RATE = 8000;

  private ClickTrack() {}

  /**
   * Writes a click track, PCM, 16 bits, one channel.
   *
   * @param seconds its length
   * @param perMinute clicks a minute
   */
  static void write(Path file, double seconds, double perMinute) {
    int samples = (int) (seconds * RATE);
    ByteBuffer wav = ByteBuffer.allocate(44 + 2 * samples).order(ByteOrder.LITTLE_ENDIAN);
    wav.put("RIFF".getBytes(java.nio.charset.StandardCharsets.US_ASCII)).putInt(36 + 2 * samples);
    wav.put("WAVEfmt ".getBytes(java.nio.charset.StandardCharsets.US_ASCII)).putInt(16);
    wav.putShort((short) 1).putShort((short) 1).putInt(RATE).putInt(2 * RATE);
    wav.putShort((short) 2).putShort((short) 16);
    wav.put("data".getBytes(java.nio.charset.StandardCharsets.US_ASCII)).putInt(2 * samples);
    double between = 60 / perMinute;
    for (int i = 0; i < samples; i++) {
      double at = (double) i / RATE;
      double since = at % between;
      double tone = since < 0.04 ? Math.sin(2 * Math.PI * 880 * at) * (1 - since / 0.04) : 0;
      wav.putShort((short) (tone * 6000));
    }
    try {
      Files.write(file, wav.array());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
