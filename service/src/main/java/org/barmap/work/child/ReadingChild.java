package org.barmap.work.child;

import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.work.ExtractorReader;
import org.barmap.work.FileOpening;
import org.barmap.work.PageReader;
import sun.misc.Signal;
import sun.misc.SignalHandler;

/** The process that decodes and reads; it ends when nobody is left who asks. */
public final class ReadingChild {

  /** What it ends with when there is no memory left. */
  static final int NO_MEMORY = 3;

  private final PageReader reader = new ExtractorReader();
  private final DataOutputStream answers;

  private ReadingChild(DataOutputStream answers) {
    this.answers = answers;
  }

  /** Answers questions until there are no more. */
  public static void main(String[] args) {
    // Ctrl-C goes to all processes of a terminal; who asks decides when this one ends
    for (String name : List.of("INT", "TERM", "HUP")) {
      Signal.handle(new Signal(name), SignalHandler.SIG_IGN);
    }
    DataInputStream questions = new DataInputStream(new FileInputStream(FileDescriptor.in));
    ReadingChild child =
        new ReadingChild(
            new DataOutputStream(
                new BufferedOutputStream(new FileOutputStream(FileDescriptor.out))));
    try {
      while (true) {
        Ask ask = Frames.read(questions, Ask.class);
        new Thread(() -> child.work(ask), "barmap-" + ask.kind()).start();
      }
    } catch (IOException e) {
      ChildFolder.end(0);
    }
  }

  private void work(Ask ask) {
    try {
      answer(ask);
    } catch (IOException | UncheckedIOException e) {
      send(ask, Answer.plain(Answer.Kind.NOT_KEPT, String.valueOf(e.getMessage())));
    } catch (RuntimeException e) {
      send(ask, Answer.plain(Answer.Kind.FAILED, e + " at " + List.of(e.getStackTrace())));
    } catch (Error e) {
      // what state everything is in nobody knows
      ChildFolder.end(NO_MEMORY);
    }
  }

  private void answer(Ask ask) throws IOException {
    Path file = Path.of(ask.file());
    switch (ask.kind()) {
      case COUNT -> send(ask, Answer.count(reader.count(file)));
      case OPEN -> {
        send(ask, Answer.count(reader.count(file)));
        FileOpening.open(file, ask.name(), ask.from(), p -> send(ask, Answer.picture(p)));
      }
      case READ ->
          reader.read(file, ask.name(), ask.from()).forEach(r -> send(ask, Answer.page(r)));
      case LINE ->
          reader
              .read(file, ask.page().orElseThrow(), ask.frame().orElseThrow())
              .map(p -> new PageReader.Result(Optional.of(p), List.of()))
              .ifPresent(r -> send(ask, Answer.page(r)));
      case SCALE -> reader.scale(file, ask.from(), Path.of(ask.name()));
    }
    send(ask, Answer.plain(Answer.Kind.END, ""));
  }

  private void send(Ask to, Answer answer) {
    try {
      Frames.write(answers, answer.to(to));
    } catch (IOException e) {
      ChildFolder.end(0);
    }
  }
}
