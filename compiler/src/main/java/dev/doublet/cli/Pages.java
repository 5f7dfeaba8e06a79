package dev.doublet.cli;

import dev.doublet.check.Checks;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.syntax.Tree;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** The pages of all findings. */
final class Pages {
  /** What earlier stages say of a text, by name. */
  private static final List<String> LANGUAGE =
      List.of(
          "aspect-cycle",
          "bad-value",
          "duplicate-name",
          "head-count",
          "incomplete",
          "missing-file",
          "unknown-name",
          "unused-name",
          "use-cycle");

  private static final List<String> SYNTAX = List.of("not-text", "syntax");

  private static final List<String> LAYOUT =
      List.of(
          "command-keys",
          "duplicate-key",
          "led-overlap",
          "missing-key",
          "unknown-key",
          "wrong-type",
          "yaml-anchors",
          "yaml-syntax");

  private Pages() {}

  /** All pages, by name. */
  static List<Page> all() {
    Stream<Page> syntax = SYNTAX.stream().map(n -> read(Tree.class, n, n + ".md"));
    Stream<Page> language = LANGUAGE.stream().map(n -> read(RulebookResolver.class, n, n + ".md"));
    Stream<Page> layout = LAYOUT.stream().map(n -> read(LayoutResolver.class, n, n + ".md"));
    Stream<Page> checks =
        Checks.all().stream()
            .map(c -> read(c.getClass(), c.name(), c.getClass().getSimpleName() + ".md"));
    return Stream.of(syntax, language, layout, checks)
        .flatMap(s -> s)
        .sorted(Comparator.comparing(Page::name))
        .toList();
  }

  private static Page read(Class<?> beside, String name, String file) {
    try (InputStream in = beside.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("there is no page " + file);
      }
      return new Page(name, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
