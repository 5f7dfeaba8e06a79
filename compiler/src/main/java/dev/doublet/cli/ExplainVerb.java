package dev.doublet.cli;

import dev.doublet.source.Nearest;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code explain}: what a finding means and what to do. */
@Command(
    name = "explain",
    mixinStandardHelpOptions = true,
    description =
        "Tells what a finding of check or a change of diff means, why it matters and what to do.")
final class ExplainVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(
      paramLabel = "NAME",
      arity = "0..1",
      description = "the name in square brackets below a finding; without one, lists all names")
  private String name = "";

  ExplainVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    if (name.isEmpty()) {
      ExplainPages.all().forEach(p -> terminal.print(p.line()));
      terminal.print("\nChanges that diff tells of:\n");
      ExplainPages.ofChanges().forEach(p -> terminal.print(p.line()));
      return Main.CLEAN;
    }
    return all()
        .filter(p -> p.name().equals(name))
        .findFirst()
        .map(
            page -> {
              terminal.print(page.text());
              return Main.CLEAN;
            })
        .orElseGet(this::unknown);
  }

  private static Stream<ExplainPage> all() {
    return Stream.concat(ExplainPages.all().stream(), ExplainPages.ofChanges().stream());
  }

  private int unknown() {
    String near =
        Nearest.to(name, all().map(ExplainPage::name).toList())
            .map(n -> "did you mean \"" + n + "\"?")
            .orElse("\"doublet explain\" lists all names");
    terminal.complain("no finding or change is called \"" + name + "\"; " + near);
    return Main.COULD_NOT_RUN;
  }
}
