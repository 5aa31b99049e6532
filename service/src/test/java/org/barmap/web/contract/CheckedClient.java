package org.barmap.web.contract;

import java.io.IOException;
import java.net.Authenticator;
import java.net.CookieHandler;
import java.net.ProxySelector;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executor;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLParameters;
import org.jspecify.annotations.Nullable;

/** A client that fails where the service does not do what its description says. */
public final class CheckedClient extends HttpClient {

  private final HttpClient http;
  private final Contract contract;

  /**
   * Makes a client.
   *
   * @param strict whether requests that are answered well have to be as described themselves
   */
  public CheckedClient(HttpClient http, boolean strict) {
    this.http = http;
    contract = new Contract(ApiDescription.INSTANCE, strict);
  }

  @Override
  public <T> HttpResponse<T> send(HttpRequest request, HttpResponse.BodyHandler<T> handler)
      throws IOException, InterruptedException {
    HttpResponse<T> response = http.send(request, handler);
    contract.check(request, response);
    return response;
  }

  @Override
  public <T> CompletableFuture<HttpResponse<T>> sendAsync(
      HttpRequest request, HttpResponse.BodyHandler<T> handler) {
    return http.sendAsync(request, handler).thenApply(r -> checked(request, r));
  }

  @Override
  public <T> CompletableFuture<HttpResponse<T>> sendAsync(
      HttpRequest request,
      HttpResponse.BodyHandler<T> handler,
      HttpResponse.@Nullable PushPromiseHandler<T> pushed) {
    return http.sendAsync(request, handler, pushed).thenApply(r -> checked(request, r));
  }

  private <T> HttpResponse<T> checked(HttpRequest request, HttpResponse<T> response) {
    contract.check(request, response);
    return response;
  }

  @Override
  public Optional<CookieHandler> cookieHandler() {
    return http.cookieHandler();
  }

  @Override
  public Optional<Duration> connectTimeout() {
    return http.connectTimeout();
  }

  @Override
  public Redirect followRedirects() {
    return http.followRedirects();
  }

  @Override
  public Optional<ProxySelector> proxy() {
    return http.proxy();
  }

  @Override
  public SSLContext sslContext() {
    return http.sslContext();
  }

  @Override
  public SSLParameters sslParameters() {
    return http.sslParameters();
  }

  @Override
  public Optional<Authenticator> authenticator() {
    return http.authenticator();
  }

  @Override
  public Version version() {
    return http.version();
  }

  @Override
  public Optional<Executor> executor() {
    return http.executor();
  }
}
