package org.barmap.web.answer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.http.HttpResponse;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.barmap.web.RunningServer;
import org.barmap.web.WebServer;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.Problems;
import org.barmap.web.contract.ApiDescription.Operation;
import org.barmap.work.ReadingStoppedException;
import org.jdbi.v3.core.ConnectionException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * Whatever is asked of a store that fails is answered as described. Each failure is seen for real
 * on some routes: {@code LostDatabaseTest}, {@code FullDiskTest}.
 */
class FailingStoreTest extends RunningServer {

  private static final Logger LOG = Logger.getLogger(Problems.class.getName());

  private FailingLibrary failing;

  @SuppressWarnings("NullAway.Init") // before each test
  FailingStoreTest() {}

  @Override
  protected boolean isOdd() {
    return true;
  }

  @BeforeEach
  void standBetween() throws IOException {
    LOG.setLevel(Level.OFF); // else each of some hundred failures is written down
    server.close();
    failing = new FailingLibrary(library);
    server = WebServer.start(failing.library(), worker, events, folder, 0, places());
  }

  @AfterEach
  void writeAgain() {
    LOG.setLevel(null);
  }

  private void assertSaid(ApiError error, Supplier<RuntimeException> how) throws Exception {
    String book = newBook();
    List<String> otherwise = new ArrayList<>();
    failing.fail(how);
    for (Operation route : Asking.describing(error.status(), "/api/")) {
      HttpResponse<String> answer = send(Asking.understood(to(Asking.path(route, book)), route));
      if (answer.statusCode() != error.status() || !answer.body().contains(error.name())) {
        otherwise.add(route.route() + ": " + answer.statusCode() + " " + answer.body());
      }
    }
    failing.mend();
    assertThat(otherwise).isEmpty();
    assertThat(get("/api/books/" + book).statusCode()).isEqualTo(200);
  }

  @Test
  void aStoreThatCannotBeReachedIsSaid() throws Exception {
    assertSaid(
        ApiError.AWAY, () -> new ConnectionException(new SQLException("the line is cut", "08006")));
  }

  @Test
  void thatTheServiceEndsIsSaid() throws Exception {
    assertSaid(ApiError.AWAY, ReadingStoppedException::new);
  }

  @Test
  void aFullDiskIsSaid() throws Exception {
    assertSaid(
        ApiError.STORAGE,
        () -> new UncheckedIOException(new IOException("No space left on device")));
  }

  @Test
  void aMistakeOfOursIsSaidAndNotShown() throws Exception {
    assertSaid(ApiError.INTERNAL, () -> new IllegalStateException("made by the test"));
  }
}
