package dev.doublet.cli;

import dev.doublet.source.Nearest;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code explain}: what a finding means and what to do. */
@Command(
    name = "explain",
    mixinStandardHelpOptions = true,
    description = "Tells what a finding means, why it matters and how to mend it.")
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
      Pages.all().forEach(p -> terminal.print(p.line()));
      return Main.CLEAN;
    }
    return Pages.all().stream()
        .filter(p -> p.name().equals(name))
        .findFirst()
        .map(
            page -> {
              terminal.print(page.text());
              return Main.CLEAN;
            })
        .orElseGet(this::unknown);
  }

  private int unknown() {
    String near =
        Nearest.to(name, Pages.all().stream().map(Page::name).toList())
            .map(n -> "did you mean \"" + n + "\"?")
            .orElse("\"doublet explain\" lists all names");
    terminal.complain("no finding is called \"" + name + "\"; " + near);
    return Main.COULD_NOT_RUN;
  }
}
