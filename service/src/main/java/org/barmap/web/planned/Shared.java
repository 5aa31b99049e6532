package org.barmap.web.planned;

import io.javalin.http.Context;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.zip.Deflater;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.Validators;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.SerializationFeature;

/**
 * What several ask for: worked out once, written as JSON once, and gzipped once.
 *
 * @param <T> what it is
 */
final class Shared<T> {

  private static final ObjectWriter JSON =
      BarMapJson.mapper().writer().without(SerializationFeature.INDENT_OUTPUT);

  private final T value;
  private byte[] gzipped = {};

  Shared(T value) {
    this.value = value;
  }

  T value() {
    return value;
  }

  /** Answers a request with it. */
  void send(Context ctx) {
    byte[] packed = gzipped();
    ctx.contentType("application/json");
    ctx.header("Vary", "Accept-Encoding");
    if (Validators.takesGzip(ctx)) {
      ctx.header("Content-Encoding", "gzip");
      ctx.result(packed);
    } else {
      ctx.result(unpacked(packed));
    }
  }

  private synchronized byte[] gzipped() {
    if (gzipped.length == 0) {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      try (OutputStream gzip = new Fast(bytes)) {
        JSON.writeValue(gzip, value);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      gzipped = bytes.toByteArray();
    }
    return gzipped;
  }

  /**
   * Half as much again is sent, in a third of the time: the way to a person's own machine is short.
   */
  private static final class Fast extends GZIPOutputStream {
    Fast(OutputStream out) throws IOException {
      super(out, 1 << 14);
      def.setLevel(Deflater.BEST_SPEED);
    }
  }

  private static byte[] unpacked(byte[] packed) {
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
