package dev.doublet.cli;

import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Board;
import dev.doublet.starter.Starter;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code new}: a folder with a rulebook and a layout to begin with. */
@Command(
    name = "new",
    mixinStandardHelpOptions = true,
    description =
        "Makes a folder with a rulebook and a layout to begin with, which build at once. What no"
            + " option says it asks on a terminal, and elsewhere takes as it is most common.")
final class NewVerb implements Callable<Integer> {
  private static final int FEW_SIGNALS = 4;

  private final Terminal terminal;
  private final boolean asks;
  private final List<String> taken = new ArrayList<>();
  private BufferedReader answers;

  @Parameters(paramLabel = "FOLDER", description = "the folder to make")
  private String folder = "";

  @Option(names = "--heads", paramLabel = "N", description = "heads of each signal: 1, 2 or 3")
  private String heads;

  @Option(names = "--signals", paramLabel = "N", description = "how many signals: 1 to 40")
  private String signals;

  @Option(
      names = "--board",
      paramLabel = "BOARD",
      completionCandidates = Boards.class,
      description = "what drives them: ${COMPLETION-CANDIDATES}")
  private String board;

  @Option(
      names = "--bus",
      paramLabel = "BUS",
      defaultValue = "dcc",
      description = "dcc or mqtt: what brings the commands; dcc when left out")
  private Starter.Bus bus;

  NewVerb(Terminal terminal) {
    this(terminal, Boolean.getBoolean("doublet.asks"));
  }

  /**
   * A verb that may ask.
   *
   * @param asks true when a person sits at both ends of the terminal
   */
  NewVerb(Terminal terminal, boolean asks) {
    this.terminal = terminal;
    this.asks = asks;
  }

  /** A question, and what is taken when nobody answers. */
  private record Question<T>(
      String option, String words, T usual, String allowed, Function<String, Optional<T>> read) {}

  private static Question<Integer> number(String option, String words, int usual, int most) {
    return new Question<>(
        option,
        words,
        usual,
        "a number from 1 to " + most,
        text ->
            text.matches("[1-9]\\d?") && Integer.parseInt(text) <= most
                ? Optional.of(Integer.valueOf(text))
                : Optional.empty());
  }

  /** The names of the boards, for help and completion. */
  private static final class Boards implements Iterable<String> {
    @Override
    public Iterator<String> iterator() {
      return Board.ALL.stream().map(Board::word).iterator();
    }
  }

  private static Question<Board> boards() {
    return new Question<>(
        "--board",
        "Which board drives them?",
        Board.ALL.get(0),
        "one of " + Board.ALL.stream().map(Board::word).collect(Collectors.joining(", ")),
        text -> Board.ALL.stream().filter(b -> b.word().equals(text)).findFirst());
  }

  @Override
  public Integer call() throws IOException {
    answers = new BufferedReader(new InputStreamReader(terminal.input(), StandardCharsets.UTF_8));
    Optional<Integer> howManyHeads =
        answer(number("--heads", "How many heads has a signal?", 1, Starter.MOST_HEADS), heads);
    Optional<Integer> howMany =
        howManyHeads.isEmpty()
            ? Optional.empty()
            : answer(
                number("--signals", "How many signals?", FEW_SIGNALS, Starter.MOST_SIGNALS),
                signals);
    Optional<Board> which = howMany.isEmpty() ? Optional.empty() : answer(boards(), board);
    if (which.isEmpty()) {
      terminal.complain("nothing was written");
      return Main.COULD_NOT_RUN;
    }
    Starter starter = new Starter(howManyHeads.get(), howMany.get(), which.get(), bus);
    NewFolder.write(terminal.folder(), folder, starter.files());
    if (!taken.isEmpty()) {
      terminal.print("not said, and so taken: " + Words.list(taken) + "\n");
    }
    String shown = folder.endsWith("/") ? folder : folder + "/";
    starter.files().keySet().forEach(name -> terminal.print(shown + name + "\n"));
    terminal.print("next: doublet check " + quoted(folder) + "\n");
    return Main.CLEAN;
  }

  /** A path as a shell takes it, and as no option. */
  private static String quoted(String path) {
    String word = path.startsWith("-") ? "./" + path : path;
    return word.matches("[\\w./-]+") ? word : "'" + word.replace("'", "'\\''") + "'";
  }

  /** What an option says, or a person, or nobody; empty when it cannot be used. */
  private <T> Optional<T> answer(Question<T> question, String said) throws IOException {
    if (said != null) {
      Optional<T> read = question.read().apply(said);
      if (read.isEmpty()) {
        terminal.complain(
            question.option() + " takes " + question.allowed() + ", not \"" + said + "\"");
      }
      return read;
    }
    if (!asks) {
      taken.add(question.option() + " " + question.usual());
      return Optional.of(question.usual());
    }
    while (true) {
      terminal.print(question.words() + " " + question.allowed() + " [" + question.usual() + "] ");
      terminal.result().flush();
      String line = answers.readLine();
      if (line == null) {
        terminal.print("\n");
        return Optional.empty();
      }
      Optional<T> read =
          line.isBlank() ? Optional.of(question.usual()) : question.read().apply(line.strip());
      if (read.isPresent()) {
        return read;
      }
    }
  }
}
