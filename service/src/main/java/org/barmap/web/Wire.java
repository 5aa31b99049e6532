package org.barmap.web;

import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.http.staticfiles.Location;
import io.javalin.json.JavalinJackson3;
import java.net.InetAddress;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.access.Certificate;
import org.barmap.web.api.WireErrors;
import org.barmap.web.operate.AtHand;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.EagerContentHandler;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** What is between the net and the routes: addresses, limits, forms. */
final class Wire {

  private static final long MAX_BODY = 4L << 20;

  /** So much of a body is waited for without a thread, so that half-sent ones hold up nobody. */
  private static final long WHOLE_BODY = 256L << 10;

  private Wire() {}

  /** Listens at one more address, as at the first one; encrypted with a certificate. */
  static void listen(
      Server server, InetAddress address, int port, Optional<Certificate> certificate) {
    HttpConfiguration configuration =
        new HttpConfiguration(
            server
                .getConnectors()[0]
                .getConnectionFactory(HttpConnectionFactory.class)
                .getHttpConfiguration());
    ServerConnector connector =
        certificate
            .map(
                c -> {
                  // which names are right is the guard's to say
                  configuration.addCustomizer(new SecureRequestCustomizer(false));
                  SslContextFactory.Server tls = new SslContextFactory.Server();
                  tls.setKeyStore(c.store());
                  tls.setKeyStorePassword(c.password());
                  return new ServerConnector(server, tls, new HttpConnectionFactory(configuration));
                })
            .orElseGet(() -> new ServerConnector(server, new HttpConnectionFactory(configuration)));
    connector.setHost(address.getHostAddress());
    connector.setPort(port);
    server.addConnector(connector);
    try {
      connector.start();
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  /** Sets what every request meets first. */
  static void configure(JavalinConfig config, Path dataFolder, AtHand atHand) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.jsonMapper(new JavalinJackson3(mapper(), false));
    config.http.maxRequestSize = MAX_BODY;
    config.http.prefer405over404 = true;
    config.jetty.multipartConfig.cacheDirectory(dataFolder.resolve("cache").toString());
    config.jetty.multipartConfig.maxInMemoryFileSize(64, SizeUnit.KB);
    config.jetty.multipartConfig.maxFileSize(200, SizeUnit.MB);
    config.jetty.multipartConfig.maxTotalRequestSize(4, SizeUnit.GB);
    config.jetty.modifyServer(
        server -> {
          server.setErrorHandler(new WireErrors());
          EagerContentHandler eager =
              new EagerContentHandler(
                  new EagerContentHandler.RetainedContentLoaderFactory(WHOLE_BODY, -1, false));
          eager.setHandler(atHand);
          server.setHandler(eager);
        });
    config.staticFiles.add(
        files -> {
          files.hostedPath = "/";
          files.directory = "/site";
          files.location = Location.CLASSPATH;
          files.headers = Map.of("Cache-Control", "no-cache");
        });
  }

  private static JsonMapper mapper() {
    return BarMapJson.mapper().rebuild().disable(SerializationFeature.INDENT_OUTPUT).build();
  }
}
