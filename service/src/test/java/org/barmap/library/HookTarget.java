package org.barmap.library;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.LinkedBlockingQueue;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/** Somebody else's server that is told of things; it answers as it is told to, 200 at first. */
public final class HookTarget implements AutoCloseable {

  /** A request as it came. */
  public record Heard(
      String delivery, String event, String timestamp, String signature, String body) {

    /** The body as JSON. */
    public JsonNode json() {
      return BarMapJson.mapper().readTree(body);
    }

    /** Whether it is signed with a secret, by HMAC as RFC 2104 defines it. */
    public boolean isSigned(String secret) {
      byte[] message = (timestamp + "." + body).getBytes(StandardCharsets.UTF_8);
      byte[] inner = hash(padded(secret, 0x36), message);
      byte[] mac = hash(padded(secret, 0x5c), inner);
      return signature.equals("sha256=" + HexFormat.of().formatHex(mac));
    }

    private static byte[] padded(String secret, int pad) {
      byte[] key = Arrays.copyOf(secret.getBytes(StandardCharsets.UTF_8), 64);
      for (int i = 0; i < key.length; i++) {
        key[i] ^= (byte) pad;
      }
      return key;
    }

    private static byte[] hash(byte[] one, byte[] two) {
      try {
        MessageDigest digest = MessageDigest.getInstance("SHA-256");
        digest.update(one);
        return digest.digest(two);
      } catch (NoSuchAlgorithmException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  private final HttpServer server;
  private final List<Heard> heard = new CopyOnWriteArrayList<>();
  private final BlockingQueue<Heard> coming = new LinkedBlockingQueue<>();
  private volatile int status = 200;
  private volatile byte[] answer = {};

  /** Starts it at a free port of the loopback address. */
  public HookTarget() {
    try {
      server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    server.createContext("/", this::take);
    server.start();
  }

  private void take(HttpExchange exchange) throws IOException {
    try (exchange) {
      Heard one =
          new Heard(
              exchange.getRequestHeaders().getFirst("Barmap-Delivery"),
              exchange.getRequestHeaders().getFirst("Barmap-Event"),
              exchange.getRequestHeaders().getFirst("Barmap-Timestamp"),
              exchange.getRequestHeaders().getFirst("Barmap-Signature"),
              new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
      heard.add(one);
      if (status >= 300 && status < 400) {
        exchange.getResponseHeaders().add("Location", address() + "elsewhere");
      }
      exchange.sendResponseHeaders(status, answer.length == 0 ? -1 : 0);
      exchange.getResponseBody().write(answer);
      coming.add(one);
    }
  }

  /** Where it is. */
  public String address() {
    return "http://127.0.0.1:" + server.getAddress().getPort() + "/";
  }

  /** Lets it answer otherwise from now on. */
  public void answer(int newStatus, int bytes) {
    status = newStatus;
    answer = new byte[bytes];
  }

  /** What it was told so far. */
  public List<Heard> heard() {
    return heard;
  }

  /** Waits for the next one. */
  public Heard next() throws InterruptedException {
    return coming.take();
  }

  @Override
  public void close() {
    server.stop(0);
  }
}
