package dev.doublet.cli;

import dev.doublet.chart.Answers;
import dev.doublet.chart.AnswersCsv;
import dev.doublet.chart.AnswersText;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.source.Nearest;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code answers}: what each command calls up on each signal. */
@Command(
    name = "answers",
    mixinStandardHelpOptions = true,
    description =
        "Lists what to send to each signal and what it must then show, to try a layout with a"
            + " throttle in hand.")
final class AnswersVerb implements Callable<Integer> {
  private final Terminal terminal;

  /** How the list is written. */
  enum Format {
    text,
    csv
  }

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--signal", paramLabel = "NAME", description = "only this signal")
  private String signal = "";

  @Option(names = "--format", paramLabel = "FORMAT", description = "text (as usual) or csv")
  private Format format = Format.text;

  AnswersVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Optional<LayoutFacts> facts = SoundLayout.read(path, terminal);
    if (facts.isEmpty()) {
      return Main.FINDINGS;
    }
    Answers all = Answers.of(facts.get().layout());
    Answers asked = signal.isEmpty() ? all : all.ofSignal(signal);
    if (asked.heard().isEmpty() && !signal.isEmpty()) {
      terminal.complain(unknown(all));
      return Main.COULD_NOT_RUN;
    }
    terminal.print(format == Format.csv ? AnswersCsv.of(asked) : AnswersText.of(asked));
    return Main.CLEAN;
  }

  private String unknown(Answers all) {
    List<String> names = all.heard().stream().map(h -> h.unit().signal()).distinct().toList();
    return "there is no signal \""
        + signal
        + "\""
        + Nearest.to(signal, names).map(n -> "; did you mean \"" + n + "\"?").orElse("");
  }
}
