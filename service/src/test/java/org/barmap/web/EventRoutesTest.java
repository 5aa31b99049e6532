package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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
                      + "\r\n"
                      + keyLine()
                      + "Accept: text/event-stream\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      readUntil(socket.getInputStream(), ": here");
      upload(book, "one.png", png());
      String heard = readUntil(socket.getInputStream(), "\"state\":\"done\"");
      assertThat(heard).contains("event: page").contains("event: map").contains("Reading page 1");
    }
  }

  /** A desk is there as long as it listens; the others hear where it is and that it went. */
  @Test
  void whoListensToABookIsKnownWithTheirPlaceUntilTheyGo() throws Exception {
    String book = newBook();
    String place =
        "{\"desk\":\"desk-two\",\"who\":\"Anna\",\"room\":\"desk\",\"page\":3,\"bar\":\"b7\"}";
    try (Socket first = listening(book, "desk-one")) {
      readUntil(first.getInputStream(), "\"desks\":[]");
      assertThat(post("/api/books/" + book + "/here", place).statusCode()).isEqualTo(204);
      try (Socket second = listening(book, "desk-two")) {
        readUntil(second.getInputStream(), "\"desks\":[]");
        post("/api/books/" + book + "/here", place);
        String heard = readUntil(first.getInputStream(), "b7");
        assertThat(heard).contains("event: here").contains("Anna").contains("\"page\":3");
      }
      // an ended line is noticed when something is sent to it
      String other = place.replace("desk-two", "desk-one").replace("Anna", "Tom");
      int sent = 0;
      String last = "";
      while (!last.contains("Tom") || last.contains("Anna")) {
        assertThat(sent++).as("Anna never went: " + last).isLessThan(200);
        post("/api/books/" + book + "/here", other.replace("b7", "b" + sent));
        readUntil(first.getInputStream(), "event: here");
        last = readUntil(first.getInputStream(), "]}");
      }
    }
  }

  @Test
  void whoWasAwayIsToldWhatItMissed() throws Exception {
    String book = newBook();
    String other = newBook();
    String last;
    try (Socket first = listening(book, "desk-one")) {
      last = id(readUntil(first.getInputStream(), "\"desks\":[]"));
    }
    rename(other);
    rename(book);
    rename(book);
    try (Socket again = listening(book, "desk-one", "Last-Event-ID: " + last + "\r\n")) {
      String missed = readUntil(again.getInputStream(), "event: here");
      assertThat(missed.split("event: map")).hasSize(3);
      assertThat(missed)
          .contains("\"revision\":1")
          .contains("\"revision\":2")
          .doesNotContain("reset");
      String now = missed.substring(missed.lastIndexOf("id:"));
      assertThat(number(id(now))).isEqualTo(number(last) + 3);
    }
  }

  @Test
  void whoWasAwayTooLongOrInAnotherRunIsToldToAskForEverything() throws Exception {
    String book = newBook();
    for (String unknown : new String[] {"zzz-5", "x", "-1", "1-99999999999999999999", "é"}) {
      try (Socket again = listening(book, "desk-one", "Last-Event-ID: " + unknown + "\r\n")) {
        String heard = readUntil(again.getInputStream(), "event: here");
        assertThat(heard).contains("event: reset");
      }
    }
    String last;
    try (Socket first = listening(book, "desk-one")) {
      last = id(readUntil(first.getInputStream(), "\"desks\":[]"));
    }
    String ahead = last.replaceAll("\\d+$", "999999");
    stop();
    start();
    for (String before : new String[] {last, ahead}) {
      try (Socket again = listening(book, "desk-one", "Last-Event-ID: " + before + "\r\n")) {
        assertThat(readUntil(again.getInputStream(), "event: here")).contains("event: reset");
      }
    }
  }

  private static String id(String heard) {
    Matcher id = Pattern.compile("id: ?(\\S+)").matcher(heard);
    assertThat(id.find()).as(heard).isTrue();
    return id.group(1);
  }

  private static long number(String id) {
    return Long.parseLong(id.substring(id.indexOf('-') + 1));
  }

  private Socket listening(String book, String desk) throws IOException {
    return listening(book, desk, "");
  }

  private Socket listening(String book, String desk, String more) throws IOException {
    Socket socket = new Socket("127.0.0.1", server.port());
    socket.setSoTimeout(30_000);
    String request =
        "GET /api/books/%s/events?desk=%s HTTP/1.1\r\nHost: 127.0.0.1\r\n%s%sAccept: text/event-stream\r\n\r\n"
            .formatted(book, desk, keyLine(), more);
    socket.getOutputStream().write(request.getBytes(StandardCharsets.UTF_8));
    return socket;
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
