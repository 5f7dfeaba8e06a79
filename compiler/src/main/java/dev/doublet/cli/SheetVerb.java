package dev.doublet.cli;

import dev.doublet.chart.ThrottleSheet;
import dev.doublet.chart.ThrottleSheetText;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.page.ThrottleSheetPage;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** {@code sheet}: what lies beside a throttle. */
@Command(
    name = "sheet",
    mixinStandardHelpOptions = true,
    description =
        "Prints a throttle sheet: a line for each signal, and once for each kind what to send for"
            + " which aspect.")
final class SheetVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Mixin private final PrintOption print = new PrintOption();

  SheetVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Optional<LayoutFacts> facts = SoundLayout.read(path, terminal);
    if (facts.isEmpty()) {
      return Main.FINDINGS;
    }
    ThrottleSheet sheet = ThrottleSheet.of(facts.get().layout());
    terminal.print(
        switch (print.as()) {
          case text -> ThrottleSheetText.text(sheet);
          case markdown -> ThrottleSheetText.markdown(sheet);
          case csv -> ThrottleSheetText.csv(sheet);
          case html -> ThrottleSheetPage.html(sheet);
        });
    return Main.CLEAN;
  }
}
