package org.barmap.cli.run;

import java.util.List;
import sun.misc.Signal;
import sun.misc.SignalHandler;

/**
 * Ends the program from its own thread when it is told to end.
 *
 * <p>Hooks of the JVM run all at once: ours would close the store while the one of the ONNX Runtime
 * takes the models from under a page that is being read. So the signals themselves are heard; what
 * is open is closed in its order, and only then the JVM ends with its hooks.
 */
public final class Stopping {

  private static final System.Logger LOG = System.getLogger(Stopping.class.getName());

  /** Ctrl-C, a polite kill, a closed terminal. */
  private static final List<String> SIGNALS = List.of("INT", "TERM", "HUP");

  /** What a shell adds to a signal's number (POSIX). */
  private static final int SIGNALLED = 128;

  private Stopping() {}

  /**
   * Ends the process at a signal without any hook: nothing is open that would have to be closed.
   */
  public static void atOnce() {
    handle(signal -> Runtime.getRuntime().halt(SIGNALLED + signal.getNumber()));
  }

  /** Runs something at the first signal; a second one ends the process at once. */
  public static void onSignal(Runnable stop) {
    handle(
        signal -> {
          SIGNALS.forEach(Stopping::giveBack);
          stop.run();
        });
  }

  private static void handle(SignalHandler handler) {
    for (String name : SIGNALS) {
      try {
        SignalHandler before = Signal.handle(new Signal(name), handler);
        if (SignalHandler.SIG_IGN.equals(before)) {
          // whoever started it wants that, as nohup does
          Signal.handle(new Signal(name), before);
        }
      } catch (IllegalArgumentException e) {
        LOG.log(System.Logger.Level.DEBUG, "signal {0} cannot be heard here: {1}", name, e);
      }
    }
  }

  private static void giveBack(String name) {
    try {
      Signal.handle(new Signal(name), SignalHandler.SIG_DFL);
    } catch (IllegalArgumentException e) {
      LOG.log(System.Logger.Level.DEBUG, "signal {0} was never heard here: {1}", name, e);
    }
  }
}
