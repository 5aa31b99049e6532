package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/** Events as they happen, over a socket. */
class EventRoutesTest extends RunningServer {

  @Test
  void eventsComeAsTheyHappen() throws Exception {
    String book = newBook();
    try (Socket socket = new Socket("127.0.0.1", server.port())) {
      socket.setSoTimeout(30_000);
      socket
          .getOutputStream()
          .write(
              ("GET /api/books/"
                      + book
                      + "/events HTTP/1.1\r\nHost: 127.0.0.1:"
                      + server.port()
                      + "\r\nAccept: text/event-stream\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      readUntil(socket.getInputStream(), ": here");
      upload(book, "one.png", png());
      String heard = readUntil(socket.getInputStream(), "\"state\":\"done\"");
      assertThat(heard).contains("event: page").contains("event: map").contains("Reading page 1");
    }
  }

  private static String readUntil(InputStream in, String mark) throws IOException {
    StringBuilder text = new StringBuilder();
    while (text.indexOf(mark) < 0) {
      int c = in.read();
      assertThat(c).as("the stream ended after: " + text).isNotNegative();
      text.append((char) c);
    }
    return text.toString();
  }
}
