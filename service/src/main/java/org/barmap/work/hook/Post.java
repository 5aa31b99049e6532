package org.barmap.work.hook;

import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.jetty.client.BytesRequestContent;
import org.eclipse.jetty.client.HttpClient;
import org.eclipse.jetty.client.Request;
import org.eclipse.jetty.client.Response;
import org.eclipse.jetty.client.Result;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.util.Promise;
import org.eclipse.jetty.util.SocketAddressResolver;

/**
 * Posts to addresses that somebody else wrote down. A name is looked up once for a connection, and
 * what it leads to is looked at before that same address is connected to; answers are not read
 * beyond a limit, their redirections are not followed.
 */
final class Post implements AutoCloseable {

  private static final long WHOLE_MILLIS = 10_000;
  private static final long CONNECT_MILLIS = 5_000;

  /** What is answered is nobody's to read; more of it than this is not waited for. */
  private static final long MOST_ANSWER = 64L << 10;

  private static final int MOST_HEADERS = 8 << 10;
  private static final int FIRST_REDIRECTION = 300;
  private static final int FIRST_FAILURE = 400;

  private final NetRules rules;
  private final HttpClient client = new HttpClient();

  /** What came of it, for a person. */
  record Answer(boolean arrived, String text) {}

  /** An address was looked up that nothing may be sent to. */
  private static final class RefusedException extends Exception {
    private static final long serialVersionUID = 1;

    RefusedException(String why) {
      super(why);
    }
  }

  Post(NetRules rules) {
    this.rules = rules;
    client.setName("barmap-hooks");
    client.setFollowRedirects(false);
    client.setConnectTimeout(CONNECT_MILLIS);
    client.setAddressResolutionTimeout(CONNECT_MILLIS);
    client.setMaxResponseHeadersSize(MOST_HEADERS);
    client.setUserAgentField(new HttpField(HttpHeader.USER_AGENT, "barmap"));
    client.setSocketAddressResolver(this::resolve);
    try {
      client.start();
    } catch (Exception e) {
      throw new IllegalStateException("nothing can be sent to web hooks", e);
    }
    // an answer is not unpacked: it is only counted
    client.getContentDecoderFactories().clear();
  }

  private void resolve(
      String host,
      int port,
      Map<String, Object> context,
      Promise<List<InetSocketAddress>> promise) {
    new SocketAddressResolver.Async(
            client.getExecutor(), client.getScheduler(), client.getAddressResolutionTimeout())
        .resolve(
            host, port, context, Promise.from(found -> allowed(found, promise), promise::failed));
  }

  /** One refused address among several is enough: which one is taken would be left to chance. */
  private void allowed(List<InetSocketAddress> found, Promise<List<InetSocketAddress>> promise) {
    Optional<String> refusal =
        found.stream().flatMap(a -> rules.refusal(a.getAddress()).stream()).findFirst();
    if (refusal.isPresent()) {
      promise.failed(new RefusedException(refusal.get()));
    } else {
      promise.succeeded(found);
    }
  }

  /** Posts JSON and waits for what comes of it, ten seconds at most. */
  Answer send(URI address, Map<String, String> headers, byte[] body) throws InterruptedException {
    Request request =
        client
            .POST(address)
            .timeout(WHOLE_MILLIS, TimeUnit.MILLISECONDS)
            .body(new BytesRequestContent("application/json", body))
            .headers(
                fields -> {
                  headers.forEach(fields::put);
                  // each delivery looks its address up anew
                  fields.put(HttpHeader.CONNECTION, "close");
                });
    Heard heard = new Heard();
    request.send(heard);
    try {
      return heard.done.get(2 * WHOLE_MILLIS, TimeUnit.MILLISECONDS);
    } catch (ExecutionException | TimeoutException e) {
      request.abort(e);
      return new Answer(false, "No answer in time");
    }
  }

  /** Hears an answer; its status is all that counts. */
  private static final class Heard implements Response.Listener {

    private final CompletableFuture<Answer> done = new CompletableFuture<>();
    private final AtomicInteger status = new AtomicInteger();
    private final AtomicLong bytes = new AtomicLong();

    @Override
    public void onHeaders(Response response) {
      status.set(response.getStatus());
    }

    @Override
    public void onContent(Response response, ByteBuffer content) {
      if (bytes.addAndGet(content.remaining()) > MOST_ANSWER) {
        response.abort(new IllegalStateException("more than anybody reads"));
      }
    }

    @Override
    public void onComplete(Result result) {
      int code = status.get();
      if (code == 0) {
        done.complete(new Answer(false, reason(result.getFailure())));
      } else if (code >= FIRST_REDIRECTION && code < FIRST_FAILURE) {
        done.complete(
            new Answer(false, "Answered " + code + ": it points elsewhere; name that address"));
      } else {
        done.complete(new Answer(code < FIRST_REDIRECTION, "Answered " + code));
      }
    }

    private static String reason(Throwable failure) {
      for (Throwable t = failure; t != null; t = t.getCause()) {
        if (t instanceof RefusedException) {
          return String.valueOf(t.getMessage());
        }
        if (t instanceof TimeoutException) {
          return "No answer in time";
        }
        if (t instanceof java.net.UnknownHostException) {
          return "There is no machine of that name";
        }
        if (t instanceof javax.net.ssl.SSLException) {
          return "Its certificate can't be trusted";
        }
      }
      return "It can't be reached";
    }
  }

  @Override
  public void close() {
    try {
      client.stop();
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }
}
