package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import javax.imageio.ImageIO;
import org.barmap.cli.run.Stopping;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.sign.ReadPage;
import org.barmap.work.PageReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** How the program ends: readings first, then the models, then the store. */
class ServiceTest {

  /** Takes as long for a page as it is told to. */
  private static final class SlowReader implements PageReader {
    private final CountDownLatch begun = new CountDownLatch(1);
    private final CountDownLatch goOn = new CountDownLatch(1);
    private final List<String> order = new CopyOnWriteArrayList<>();

    @Override
    public List<Result> read(Path picture, String source, int index) {
      begun.countDown();
      try {
        goOn.await();
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
      order.add("page read");
      return List.of();
    }

    @Override
    public BarMap settle(Book book, List<ReadPage> pages) {
      throw new IllegalStateException("nothing was read");
    }

    @Override
    public void close() {
      order.add("models closed");
    }
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void theModelsAreClosedAfterThePageAtHand(boolean interrupted, @TempDir Path data)
      throws Exception {
    SlowReader reader = new SlowReader();
    Service service = Service.open(data, reader);
    Library library = service.library();
    String book = library.books().add("Saltmarsh", "Bass").id();
    Path file = library.pages().folder(book).resolve("u.png");
    ImageIO.write(new BufferedImage(100, 140, BufferedImage.TYPE_BYTE_GRAY), "png", file.toFile());
    library.jobs().add(book, List.of(new Jobs.Upload("u", "u.png", file)));
    service.worker().start();
    reader.begun.await();
    Thread closing = new Thread(service::close);
    closing.start();
    if (interrupted) {
      closing.interrupt();
    }
    // it waits for the reading without a limit, not for a while
    await().until(() -> closing.getState() == Thread.State.WAITING);
    assertThat(reader.order).isEmpty();
    reader.goOn.countDown();
    closing.join();
    assertThat(reader.order).containsExactly("page read", "models closed");
  }

  /** A second signal is the system's own again, so this test raises one. */
  @Test
  void aSignalStopsTheReadingInsteadOfTheProcess() throws Exception {
    CountDownLatch stopped = new CountDownLatch(1);
    Stopping.onSignal(stopped::countDown);
    sun.misc.Signal.raise(new sun.misc.Signal("TERM"));
    stopped.await();
  }

  @Test
  void whatAKilledOneLeftInTheTemporaryFolderGoesAtTheStart(@TempDir Path data) throws IOException {
    Path left = Files.createTempDirectory("barmap-engine-");
    Files.createFile(left.resolve(".barmap-owner"));
    Files.writeString(left.resolve("1.png"), "a rented page");
    Service.open(data).close();
    assertThat(left).doesNotExist();
  }
}
