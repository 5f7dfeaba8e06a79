package dev.doublet.cli;

import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code completion}: what a shell needs to complete verbs and options. */
@Command(
    name = "completion",
    mixinStandardHelpOptions = true,
    description =
        "Prints a script with which a shell completes verbs and options; for bash, run"
            + " \"source <(doublet completion bash)\", or keep it where bash-completion looks.")
final class CompletionVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "SHELL", description = "bash")
  private Shell shell;

  /** A shell that takes the script. */
  enum Shell {
    bash
  }

  CompletionVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    CommandLine whole = new CommandLine(new Main());
    Verbs.addTo(whole, terminal);
    terminal.printRaw(AutoComplete.bash("doublet", whole));
    return Main.CLEAN;
  }
}
