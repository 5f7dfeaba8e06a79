package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.page.AspectLook;
import dev.doublet.report.Summary;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Nearest;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code look}: what aspects look like, on a terminal. */
@Command(
    name = "look",
    mixinStandardHelpOptions = true,
    description =
        "Prints what aspects look like, form by form, one below the other: with coloured discs on a"
            + " terminal (unless NO_COLOR is set), in words anywhere.")
final class LookVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(index = "0", paramLabel = "RULEBOOK", description = "a rulebook (.aspects)")
  private String path = "";

  @Parameters(
      index = "1..*",
      paramLabel = "ASPECT",
      description = "names of aspects; all when none is given")
  private List<String> names = new ArrayList<>();

  LookVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    String file = Inputs.rulebook(path, terminal.folder(), disk);
    Compiler.Checked<Rulebook> checked = Compiler.readToDraw(file, disk);
    if (checked.value().isEmpty() || !checked.value().get().isWhole()) {
      terminal.show(Summary.of(checked.diagnostics(), 1, checked.skipped(), false));
      return Main.FINDINGS;
    }
    Rulebook book = checked.value().get();
    List<Aspect> aspects = new ArrayList<>(names.isEmpty() ? book.aspects() : List.of());
    for (String name : names) {
      Optional<Aspect> aspect = book.aspect(name);
      if (aspect.isEmpty()) {
        List<String> known = book.aspects().stream().map(Aspect::name).toList();
        String near = Nearest.to(name, known).map(n -> "; did you mean \"" + n + "\"?").orElse("");
        terminal.complain("the rulebook has no aspect \"" + name + "\"" + near);
        return Main.COULD_NOT_RUN;
      }
      aspects.add(aspect.get());
    }
    terminal.show(new AspectLook(book, aspects));
    return Main.CLEAN;
  }
}
