package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.page.AspectChart;
import dev.doublet.page.Gap;
import dev.doublet.report.Summary;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Nearest;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code chart}: what a rulebook's aspects look like. */
@Command(
    name = "chart",
    mixinStandardHelpOptions = true,
    description =
        "Draws a rulebook's aspects as one page (aspects.html) and as Markdown (aspects.md), or one"
            + " picture of an aspect on a form as SVG.")
final class ChartVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "RULEBOOK", description = "a rulebook (.aspects)")
  private String path = "";

  @Option(names = "--output", paramLabel = "FOLDER", description = "where to write the chart")
  private String output = "";

  @Option(names = "--aspect", paramLabel = "NAME", description = "prints one picture: the aspect")
  private String aspect = "";

  @Option(names = "--form", paramLabel = "NAME", description = "the form that shows it")
  private String form = "";

  ChartVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    boolean single = !aspect.isEmpty() || !form.isEmpty();
    if (single == !output.isEmpty() || aspect.isEmpty() != form.isEmpty()) {
      terminal.complain(
          "say where the chart goes (--output FOLDER), or which picture is to be printed (--aspect"
              + " NAME --form NAME)");
      return Main.COULD_NOT_RUN;
    }
    Disk disk = new Disk(terminal.folder(), List.of(path));
    String file = Inputs.rulebook(path, terminal.folder(), disk);
    Compiler.Checked<Rulebook> checked = Compiler.readToDraw(file, disk);
    if (checked.value().isEmpty() || !checked.value().get().isWhole()) {
      terminal.show(Summary.of(checked.diagnostics(), 1, checked.skipped(), false));
      if (!single) {
        terminal.complain("nothing was written");
      }
      return Main.FINDINGS;
    }
    Rulebook book = checked.value().get();
    return single ? picture(book) : chart(book, checked.diagnostics());
  }

  private int chart(Rulebook book, List<Diagnostic> found) throws IOException {
    List<Product> files =
        List.of(
            Product.text("aspects.html", AspectChart.html(book, gaps(found))),
            Product.text("aspects.md", AspectChart.markdown(book)));
    OutputFolder.write(terminal.folder(), output, files);
    files.forEach(file -> terminal.print(file.name() + "\n"));
    return Main.CLEAN;
  }

  /** What findings say of aspects' places in the sequence. */
  private static List<Gap> gaps(List<Diagnostic> found) {
    return found.stream()
        .filter(finding -> finding.name().equals("sequence-gap"))
        .map(finding -> new Gap(finding.about(), finding.message()))
        .toList();
  }

  private int picture(Rulebook book) {
    Optional<Aspect> asked = book.aspect(aspect);
    Optional<Form> on = book.form(form);
    if (asked.isEmpty()) {
      return unknown("aspect", aspect, book.aspects().stream().map(Aspect::name).toList());
    }
    if (on.isEmpty()) {
      return unknown("form", form, book.forms().stream().map(Form::name).toList());
    }
    Optional<String> svg = AspectChart.svg(book, asked.get(), on.get());
    if (svg.isEmpty()) {
      terminal.complain("\"" + aspect + "\" has no pattern on form " + form);
      return Main.COULD_NOT_RUN;
    }
    terminal.print(svg.get());
    return Main.CLEAN;
  }

  private int unknown(String what, String name, List<String> known) {
    String near = Nearest.to(name, known).map(n -> "; did you mean \"" + n + "\"?").orElse("");
    terminal.complain("the rulebook has no " + what + " \"" + name + "\"" + near);
    return Main.COULD_NOT_RUN;
  }
}
