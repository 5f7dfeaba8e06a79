package dev.doublet.cli;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** The {@code doublet} command. */
@Command(
    name = "doublet",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Checks railway-signal rulebooks and model layouts, and builds tables for controllers.",
    footer = {
      "",
      "Exit codes: 0 clean or only warnings, 1 errors, 2 could not run.",
      "For model railways only; not for full-size railways."
    })
public final class Main {
  /** No errors found. */
  static final int CLEAN = 0;

  /** Errors found. */
  static final int FINDINGS = 1;

  /** The command could not do its work. */
  static final int COULD_NOT_RUN = 2;

  Main() {}

  /** Runs the command and ends the process. */
  public static void main(String[] arguments) {
    if (arguments.length > 0 && arguments[0].equals("check")) {
      HeadStart.begin();
    }
    PrintStream out = new PrintStream(System.out, false, StandardCharsets.UTF_8);
    PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
    System.exit(run(Terminal.of(out, err), arguments));
  }

  /** Runs the command with its output going to a terminal, and returns the exit code. */
  static int run(Terminal terminal, String... arguments) {
    int code;
    try {
      code = isPlainCheck(arguments) ? check(terminal, arguments) : execute(terminal, arguments);
    } catch (OutOfMemoryError e) {
      terminal.complain(
          "this takes more memory than Java was given; give it more with JAVA_TOOL_OPTIONS=-Xmx4g");
      return COULD_NOT_RUN;
    }
    if (!terminal.isAllPrinted()) {
      terminal.complain("not all of the output could be written");
      return COULD_NOT_RUN;
    }
    return code;
  }

  /** True for a check of files and nothing else. */
  private static boolean isPlainCheck(String... arguments) {
    if (arguments.length < 2 || !arguments[0].equals("check")) {
      return false;
    }
    for (String argument : arguments) {
      if (argument.isBlank() || argument.startsWith("-")) {
        return false;
      }
    }
    return true;
  }

  /** Setting up the library that reads options takes longer than many a check. */
  private static int check(Terminal terminal, String... arguments) {
    List<String> paths = List.of(arguments).subList(1, arguments.length);
    try {
      return new CheckVerb(terminal, paths).call();
    } catch (Exception e) {
      return troubled(terminal, e);
    }
  }

  private static int troubled(Terminal terminal, Exception exception) {
    terminal.complain(Troubles.words(exception));
    return COULD_NOT_RUN;
  }

  private static int execute(Terminal terminal, String... arguments) {
    CommandLine command = new CommandLine(new Main());
    Verbs.addTo(command, terminal, arguments);
    command.setOut(terminal.result());
    command.setErr(terminal.complaints());
    command.setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF));
    // A folder may hold a file whose name begins so, and a shell puts it among the arguments.
    command.setExpandAtFiles(false);
    command.setParameterExceptionHandler(
        (mistake, given) -> {
          terminal.complain(Misuse.words(mistake, given));
          return COULD_NOT_RUN;
        });
    command.setExecutionExceptionHandler(
        (exception, line, result) -> troubled(terminal, exception));
    if (arguments.length == 0) {
      command.usage(command.getOut());
      return COULD_NOT_RUN;
    }
    if (Arrays.stream(arguments).anyMatch(a -> a.matches("(--[a-z-]+=)?\\s*"))) {
      terminal.complain("an argument is empty; for the folder that this runs in, write .");
      return COULD_NOT_RUN;
    }
    return command.execute(arguments);
  }
}
