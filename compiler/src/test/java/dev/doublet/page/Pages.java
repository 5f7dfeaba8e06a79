package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.layout.Layout;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;

/** Layouts for tests of pages. */
final class Pages {
  static final String DEMO = "examples/brackwater/layout.yaml";

  private Pages() {}

  /** A file of the project. */
  static SourceFile fromProject(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(Path.of("..").resolve(path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }

  /** A layout that was built. */
  static Build built(String path, SourceReader reader) {
    Build build = Compiler.build(path, reader);
    assertThat(build.files()).as(build.checked().diagnostics().toString()).isNotEmpty();
    return build;
  }

  /** The layout of a build. */
  static Layout layout(Build build) {
    return build.checked().value().orElseThrow().layout();
  }

  /** The tables of a build. */
  static Map<String, byte[]> tables(Build build) {
    Map<String, byte[]> tables = new TreeMap<>();
    layout(build)
        .controllers()
        .forEach(c -> tables.put(c.name(), build.files().get(c.name() + ".bin")));
    return tables;
  }

  /** The page of a build. */
  static String html(Build build) {
    return LayoutPage.html(layout(build), tables(build));
  }
}
