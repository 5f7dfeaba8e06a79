package dev.doublet.cli;

import dev.doublet.chart.PartsList;
import dev.doublet.chart.PartsListText;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.page.PartsPage;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** {@code parts}: what to buy. */
@Command(
    name = "parts",
    mixinStandardHelpOptions = true,
    description =
        "Lists what a layout is built of: LEDs by kind, heads, boards, resistors, connectors, fuses"
            + " and wires, with how much of each its controllers need.")
final class PartsVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Mixin private final PrintOption print = new PrintOption();

  PartsVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Optional<LayoutFacts> facts = SoundLayout.read(path, terminal);
    if (facts.isEmpty()) {
      return Main.FINDINGS;
    }
    PartsList list = PartsList.of(facts.get());
    terminal.print(
        switch (print.as()) {
          case text -> PartsListText.text(list);
          case markdown -> PartsListText.markdown(list);
          case csv -> PartsListText.csv(list);
          case html -> PartsPage.html(list);
        });
    return Main.CLEAN;
  }
}
