package dev.doublet.cli;

import dev.doublet.serve.Server;
import java.io.OutputStream;
import java.util.concurrent.Callable;
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
    OutputStream out = terminal.bytes();
    boolean ended =
        Server.serve(terminal.input(), out, uris -> new EditorFolder(terminal.folder(), uris));
    return ended ? Main.CLEAN : CUT_OFF;
  }
}
