package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.web.access.Invite;
import org.barmap.web.access.Keys;
import org.barmap.web.access.Role;
import org.barmap.web.access.Seen;
import org.barmap.web.access.Who;
import org.barmap.web.api.ApiError;
import org.barmap.work.Events;
import org.junit.jupiter.api.Test;

/**
 * The owner's way in over the loopback address, which every account of the machine reaches: the
 * printed address opens once, a cookie from then on, nothing without either.
 */
class DoorTest extends RunningServer {

  private final List<Instant> now = new ArrayList<>(List.of(Instant.parse("2026-05-20T18:00:00Z")));

  private Keys keys() throws Exception {
    return Keys.of(folder, () -> now.get(0));
  }

  @Test
  void anotherAccountOfTheMachineGetsNothing() throws Exception {
    String book = newBook();
    HttpResponse<String> asked = send(withoutKey("/api/books"));
    assertProblem(asked, ApiError.NEEDS_KEY);
    assertThat(asked.headers().firstValue("WWW-Authenticate")).contains("Bearer");
    assertProblem(send(withoutKey("/api/books/" + book).DELETE()), ApiError.NEEDS_KEY);
    assertThat(get("/api/books/" + book).statusCode()).as("it is still there").isEqualTo(200);
    HttpResponse<String> page = send(withoutKey("/").header("Accept", "text/html"));
    assertThat(page.statusCode()).isEqualTo(401);
    assertThat(page.body()).contains("Open the whole address that stands where barmap was started");
  }

  @Test
  void thePrintedAddressIsExchangedForACookie() throws Exception {
    String book = newBook();
    String entry = server.entry().replaceFirst("http://[^/]+", "");
    HttpResponse<String> entered = send(withoutKey(entry + "&b=" + book));
    assertThat(entered.statusCode()).isEqualTo(302);
    assertThat(entered.headers().firstValue("Location")).contains("/book.html?b=" + book);
    assertThat(entered.headers().firstValue("Referrer-Policy")).contains("no-referrer");
    assertThat(entered.headers().firstValue("Cache-Control")).contains("no-store");
    String cookie = entered.headers().firstValue("Set-Cookie").orElse("");
    assertThat(cookie)
        .contains("; HttpOnly")
        .contains("; SameSite=Strict")
        .contains("; Path=/")
        .contains("; Max-Age=" + Duration.ofDays(400).toSeconds());
    String kept = cookie.substring(0, cookie.indexOf(';'));
    assertThat(send(withoutKey("/api/books").header("Cookie", kept)).statusCode()).isEqualTo(200);
    // nobody is led elsewhere by it
    for (String to : List.of("//evil.example", "https://evil.example", "x\"><script>")) {
      String asked =
          entry + "&b=" + java.net.URLEncoder.encode(to, java.nio.charset.StandardCharsets.UTF_8);
      assertThat(send(withoutKey(asked)).headers().firstValue("Location")).contains("/");
    }
    assertThat(entered.body()).doesNotContain(server.key());
  }

  /** What a browser keeps is good after the program was started again, for this folder only. */
  @Test
  void aCookieIsOfItsDataFolder() throws Exception {
    String key = server.key();
    assertThat(key).hasSizeGreaterThanOrEqualTo(27);
    assertThat(keys().owner()).isEqualTo(key);
    Path other = Files.createDirectory(folder.resolve("other"));
    Keys others = Keys.of(other, Instant::now);
    assertThat(others.owner()).isNotEqualTo(key);
    assertThat(others.cookie(new Who.Owner())).isNotEqualTo(keys().cookie(new Who.Owner()));
    try (SqliteLibrary library = SqliteLibrary.open(other, java.time.Clock.systemUTC());
        WebServer second = WebServer.start(library, worker, new Events(), other, 0)) {
      assertThat(second.key()).isEqualTo(others.owner());
    }
  }

  @Test
  void theKeysAreReadByTheirOwnersAccountOnly() throws Exception {
    Path file = folder.resolve("access.json");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
    Keys again = keys();
    again.invite("b", Role.READER, "Anna", now.get(0).plusSeconds(60));
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    for (String broken : List.of("{", "{}", "{\"owner\":\"short\"}")) {
      Files.writeString(file, broken);
      org.assertj.core.api.Assertions.assertThatThrownBy(this::keys)
          .hasMessageContaining("move it away");
    }
  }

  @Test
  void aLinkEndsByItselfAndOutlivesTheProgram() throws Exception {
    Instant until = now.get(0).plus(Duration.ofDays(2));
    Invite invite = keys().invite("b", Role.CORRECTOR, "Anna", until);
    Keys again = keys();
    assertThat(again.look(invite.key(), "10.0.0.7"))
        .isEqualTo(new Seen.Known(new Who.Invited(invite)));
    now.set(0, until);
    assertThat(again.look(invite.key(), "10.0.0.7")).isEqualTo(new Seen.Ended());
    assertThat(again.isGood(new Who.Invited(invite))).isFalse();
    assertThat(again.invites("b")).isEmpty();
    now.set(0, until.minusSeconds(1));
    assertThat(again.invites("b")).hasSize(1);
    again.end(i -> i.book().equals("b"));
    assertThat(keys().look(invite.key(), "10.0.0.7")).isEqualTo(new Seen.Ended());
  }

  @Test
  void whoWasSlowedMayTryAgainAfterAMinute() throws Exception {
    Keys keys = keys();
    String key = keys.owner();
    for (int i = 0; i < 5; i++) {
      assertThat(keys.look("no", "10.0.0.7")).isInstanceOf(Seen.Wrong.class);
    }
    assertThat(keys.look(key, "10.0.0.7")).isEqualTo(new Seen.Slowed(61));
    assertThat(keys.look(key, "10.0.0.8")).isInstanceOf(Seen.Known.class);
    assertThat(keys.lookAgain(key, "10.0.0.7")).as("is in").isInstanceOf(Seen.Known.class);
    assertThat(keys.lookAgain("no", "10.0.0.7")).isInstanceOf(Seen.Slowed.class);
    now.set(0, now.get(0).plus(Duration.ofSeconds(59)));
    assertThat(keys.look(key, "10.0.0.7")).isInstanceOf(Seen.Slowed.class);
    now.set(0, now.get(0).plus(Duration.ofSeconds(1)));
    assertThat(keys.look(key, "10.0.0.7")).isInstanceOf(Seen.Known.class);
  }
}
