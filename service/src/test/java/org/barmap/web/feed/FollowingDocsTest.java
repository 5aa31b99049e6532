package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.reflect.Method;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.ToolProvider;
import org.barmap.library.HookTarget;
import org.barmap.web.RunningServer;
import org.barmap.work.hook.HookSender;
import org.barmap.work.hook.NetRules;
import org.junit.jupiter.api.Test;

/** The programs of the page about following a book do what the page says. */
class FollowingDocsTest extends RunningServer {

  private static String documented(String id) throws IOException {
    Path page =
        Path.of(System.getProperty("barmap.home", "..")).resolve("web-static/docs/following.html");
    Matcher code =
        Pattern.compile("(?s)<code id=\"" + id + "\">(.*?)</code>").matcher(Files.readString(page));
    assertThat(code.find()).isTrue();
    return code.group(1).replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
  }

  private String register(String address) throws Exception {
    return json(post("/api/hooks", "{\"address\":\"" + address + "\"}")).path("secret").asString();
  }

  private void tell() throws Exception {
    try (HookSender sender =
        new HookSender(library.feed(), new NetRules(true), Clock.systemUTC())) {
      String id = json(get("/api/hooks")).path("hooks").path(0).path("id").asString();
      assertThat(post("/api/hooks/" + id + "/try", "").statusCode()).isEqualTo(202);
      assertThat(sender.runOne()).isTrue();
    }
  }

  @Test
  void theJavaKnowsWhatIsFromBarmap() throws Exception {
    allowMyNet();
    Path source = folder.resolve("FromBarmap.java");
    Files.writeString(source, documented("verify-java"));
    assertThat(ToolProvider.getSystemJavaCompiler().run(null, null, null, source.toString()))
        .isZero();
    try (HookTarget target = new HookTarget();
        URLClassLoader classes = new URLClassLoader(new URL[] {folder.toUri().toURL()})) {
      String secret = register(target.address());
      tell();
      HookTarget.Heard heard = target.heard().get(0);
      byte[] body = heard.body().getBytes(StandardCharsets.UTF_8);
      Method is =
          classes
              .loadClass("FromBarmap")
              .getMethod("is", String.class, String.class, String.class, byte[].class);
      assertThat(is.invoke(null, secret, heard.timestamp(), heard.signature(), body))
          .isEqualTo(true);
      String other = heard.signature().replaceFirst("=.", "=x");
      assertThat(is.invoke(null, secret, heard.timestamp(), other, body)).isEqualTo(false);
      byte[] longer = Arrays.copyOf(body, body.length + 1);
      assertThat(is.invoke(null, secret, heard.timestamp(), heard.signature(), longer))
          .isEqualTo(false);
      assertThat(is.invoke(null, secret + "x", heard.timestamp(), heard.signature(), body))
          .isEqualTo(false);
    }
  }

  @Test
  void theJavaScriptIsAWholeProgramThatIsTold() throws Exception {
    allowMyNet();
    Path program = folder.resolve("told.mjs");
    Files.writeString(program, documented("verify-js"));
    int port;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    String secret = register("http://127.0.0.1:" + port + "/barmap");
    try (Told right = new Told(program, secret, port)) {
      tell();
      assertThat(right.out.readLine().strip()).isEqualTo("tried");
    }
    assertThat(answers()).startsWith("Answered 204");
    try (Told wrong = new Told(program, secret + "x", port)) {
      tell();
      assertThat(answers()).startsWith("Answered 401");
      assertThat(wrong.out.ready()).isFalse();
    }
  }

  /** What came of the last try. */
  private String answers() throws Exception {
    String id = json(get("/api/hooks")).path("hooks").path(0).path("id").asString();
    return json(get("/api/hooks/" + id)).path("deliveries").path(0).path("answer").asString();
  }

  /** The program, running. */
  private static final class Told implements AutoCloseable {
    private final Process process;
    private final BufferedReader out;

    Told(Path program, String secret, int port) throws IOException {
      ProcessBuilder node = new ProcessBuilder("node", program.toString());
      node.environment().put("SECRET", secret);
      node.environment().put("PORT", Integer.toString(port));
      process = node.redirectErrorStream(true).start();
      out =
          new BufferedReader(
              new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
      assertThat(out.readLine()).startsWith("listening at");
    }

    @Override
    public void close() throws Exception {
      process.destroyForcibly().waitFor();
      out.close();
    }
  }
}
