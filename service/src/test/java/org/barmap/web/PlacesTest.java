package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.util.List;
import java.util.Optional;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import org.barmap.web.access.Certificate;
import org.barmap.web.access.Places;
import org.junit.jupiter.api.Test;

/** Encrypted by a certificate that was given, and behind a proxy of this machine. */
class PlacesTest extends RunningServer {

  private static final String PASSWORD = "barmap-test";

  private Optional<Certificate> certificate = Optional.empty();

  @Override
  protected Places places() throws IOException {
    certificate = Optional.of(Certificate.read(made(), PASSWORD));
    return new Places(
        List.of(InetAddress.getByName("127.0.0.2")),
        certificate,
        Optional.of(URI.create("https://barmap.example.org")));
  }

  /** By the JDK's own tool. */
  private Path made() throws IOException {
    Path file = folder.resolve("barmap.p12");
    Path tool = Path.of(System.getProperty("java.home"), "bin", "keytool");
    String asked =
        "-genkeypair -alias barmap -keyalg EC -dname CN=barmap -ext san=dns:pit.example.org"
            + " -storetype PKCS12 -storepass %s -keystore %s".formatted(PASSWORD, file);
    List<String> command = new java.util.ArrayList<>(List.of(tool.toString()));
    command.addAll(List.of(asked.split(" ")));
    new ProcessBuilder(command).inheritIO().start().onExit().join();
    return file;
  }

  private String asked(Socket socket, String path, String head) throws IOException {
    try (socket) {
      socket.setSoTimeout(30_000);
      String request = "GET %s HTTP/1.1\r\n%s\r\nConnection: close\r\n\r\n".formatted(path, head);
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private Socket encrypted() throws IOException, GeneralSecurityException {
    TrustManagerFactory trust =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    trust.init(certificate.orElseThrow().store());
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, trust.getTrustManagers(), null);
    return context.getSocketFactory().createSocket("127.0.0.2", server.port());
  }

  private String entry() {
    return "/open?key=" + server.key();
  }

  @Test
  void theCertificateEncryptsWhatIsShared() throws Exception {
    String host = "Host: pit.example.org:" + server.port();
    String entered = asked(encrypted(), entry(), host);
    assertThat(entered).contains(" 302 ").contains("; Secure");
    String origin = "\r\nOrigin: https://pit.example.org:" + server.port();
    String key = "\r\nAuthorization: Bearer " + server.key();
    assertThat(asked(encrypted(), "/api/books", host + origin + key)).contains(" 200 ");
    assertThat(asked(encrypted(), "/api/books", host + origin.replace("s:", ":") + key))
        .contains("FOREIGN");
    assertThat(asked(encrypted(), "/api/books", "Host: evil.example" + key)).contains("FOREIGN");
    Socket plain = new Socket("127.0.0.2", server.port());
    assertThat(asked(plain, "/api/books", host + key)).doesNotContain(" 200 ");
    assertThat(asked(new Socket("127.0.0.1", server.port()), entry(), "Host: localhost"))
        .contains(" 302 ")
        .doesNotContain("; Secure");
  }

  @Test
  void theProxyIsBelievedWhereItWasToldOf() throws Exception {
    String book = newBook();
    String link =
        json(post("/api/books/" + book + "/share", "{\"as\":\"reader\"}"))
            .path("open")
            .path(0)
            .path("links")
            .path(0)
            .asString();
    assertThat(link).startsWith("https://barmap.example.org/open?key=");
    String host = "Host: barmap.example.org\r\nX-Forwarded-For: 10.9.9.9, ";
    for (int i = 0; i < 5; i++) {
      assertThat(here("/open?key=no", host + "10.0.0.7")).contains("NEEDS_KEY");
    }
    assertThat(here(entry(), host + "10.0.0.7")).contains("SLOW_DOWN");
    assertThat(here(entry(), host + "10.0.0.8")).contains(" 302 ").contains("; Secure");
    // who asks this machine's own address says nothing of where it comes from
    for (int i = 0; i < 5; i++) {
      here("/open?key=no", "Host: 127.0.0.1\r\nX-Forwarded-For: 10.0.1." + i);
    }
    assertThat(here(entry(), "Host: 127.0.0.1\r\nX-Forwarded-For: 10.0.2.1")).contains("SLOW_DOWN");
  }

  private String here(String path, String head) throws IOException {
    return asked(new Socket("127.0.0.1", server.port()), path, head);
  }

  @Test
  void aFileThatHoldsNoCertificateIsRefused() throws Exception {
    Path file = folder.resolve("no.p12");
    Files.writeString(file, "no certificate");
    assertThatThrownBy(() -> Certificate.read(file, PASSWORD)).isInstanceOf(IOException.class);
    assertThatThrownBy(() -> Certificate.read(folder.resolve("barmap.p12"), "wrong"))
        .isInstanceOf(IOException.class);
  }
}
