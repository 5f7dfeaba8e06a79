package dev.doublet.cli;

import dev.doublet.serve.Server;
import java.io.IOException;
import java.io.OutputStream;
import java.util.concurrent.Callable;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import picocli.CommandLine.Command;

/** {@code serve}: what an editor asks while texts are being written. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description =
        "Serves an editor over standard input and output, in the Language Server Protocol: findings"
            + " as you type, completion, what names mean, renaming. Editors start it by themselves.")
final class ServeVerb implements Callable<Integer> {
  /** What the protocol asks for where a session ends without having been shut down. */
  private static final int CUT_OFF = 1;

  private final Terminal terminal;

  ServeVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws InterruptedException {
    Logger log = Logger.getLogger("org.eclipse.lsp4j");
    log.setUseParentHandlers(false);
    Handler complaints = new Complaints();
    log.addHandler(complaints);
    OutputStream out = terminal.bytes();
    try {
      boolean ended =
          Server.serve(terminal.input(), out, uris -> new EditorFolder(terminal.folder(), uris));
      return ended ? Main.CLEAN : CUT_OFF;
    } finally {
      log.removeHandler(complaints);
    }
  }

  /** What the library of the protocol could not make sense of, in one sentence each. */
  private final class Complaints extends Handler {
    @Override
    public void publish(LogRecord fault) {
      // Nothing is asked of an editor, so its answers are what is left of broken messages.
      boolean answer = fault.getMessage().startsWith("Unmatched response message");
      if (fault.getLevel().intValue() >= Level.WARNING.intValue() && !answer) {
        terminal.complain("a message of the editor was passed over" + reason(fault));
      }
    }

    private static String reason(LogRecord fault) {
      if (fault.getLoggerName().endsWith("StreamMessageProducer")
          || fault.getThrown() instanceof IOException) {
        return ", as it cannot be read";
      }
      return fault.getThrown() == null
          ? ": " + fault.getMessage()
          : ", as it lacks what the protocol asks for, or Doublet is at fault ("
              + fault.getThrown().getClass().getSimpleName()
              + ")";
    }

    @Override
    public void flush() {
      // Each sentence is out when it is said.
    }

    @Override
    public void close() {
      // The terminal is not its own.
    }
  }
}
