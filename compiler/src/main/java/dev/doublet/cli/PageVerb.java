package dev.doublet.cli;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.page.LayoutPage;
import dev.doublet.report.Summary;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code page}: a layout's signals on a page, lit by the reader out of the layout's tables. */
@Command(
    name = "page",
    mixinStandardHelpOptions = true,
    description =
        "Builds a layout, and writes a page (layout.html) on which its signals are lit by the reader"
            + " that controllers run, out of the same tables: send commands, and see the lamps.")
final class PageVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--output", paramLabel = "FOLDER", required = true, description = "where to")
  private String output = "";

  PageVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    Build build = Compiler.build(Inputs.layout(path, terminal.folder(), disk), disk);
    if (!build.refusal().isEmpty()) {
      terminal.complain(build.refusal());
      return Main.COULD_NOT_RUN;
    }
    if (build.files().isEmpty()) {
      terminal.show(Summary.of(build.checked().diagnostics(), 1, build.checked().skipped(), false));
      terminal.complain("nothing was written");
      return Main.FINDINGS;
    }
    Layout layout = build.checked().value().orElseThrow().layout();
    Product page = Product.text("layout.html", LayoutPage.html(layout, tables(build, layout)));
    OutputFolder.write(terminal.folder(), output, List.of(page));
    terminal.print(page.name() + "\n");
    return Main.CLEAN;
  }

  /** The table of each controller, by the controller's name. */
  static Map<String, byte[]> tables(Build build, Layout layout) {
    Map<String, byte[]> tables = new TreeMap<>();
    for (Controller controller : layout.controllers()) {
      tables.put(controller.name(), build.files().get(controller.name() + ".bin"));
    }
    return tables;
  }
}
