package dev.doublet.cli;

import dev.doublet.check.Check;
import dev.doublet.check.Checks;
import dev.doublet.diagnostic.FindingNames;
import dev.doublet.diff.Sort;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.syntax.Tree;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * The pages of all findings and changes: a check's lies beside its class, any other in the room
 * that says it.
 */
final class ExplainPages {
  private static final List<Class<?>> ROOMS =
      List.of(Tree.class, RulebookResolver.class, LayoutResolver.class);

  private ExplainPages() {}

  /** The pages of all findings, by name. */
  static List<ExplainPage> all() {
    Map<String, Check<?>> checks = new HashMap<>();
    Checks.all().forEach(check -> checks.put(check.name(), check));
    return FindingNames.ALL.stream().map(name -> page(name, checks.get(name))).toList();
  }

  /** The pages of all sorts of change, by name. */
  static List<ExplainPage> ofChanges() {
    return Arrays.stream(Sort.values())
        .map(sort -> read(sort.word(), Sort.class.getResource(sort.word() + ".md")))
        .sorted(Comparator.comparing(ExplainPage::name))
        .toList();
  }

  private static ExplainPage page(String name, Check<?> check) {
    if (check != null) {
      return read(name, check.getClass().getResource(check.getClass().getSimpleName() + ".md"));
    }
    return ROOMS.stream()
        .map(room -> room.getResource(name + ".md"))
        .filter(Objects::nonNull)
        .findFirst()
        .map(file -> read(name, file))
        .orElseThrow(() -> new IllegalStateException("there is no page of " + name));
  }

  private static ExplainPage read(String name, URL file) {
    try (InputStream in = file.openStream()) {
      return new ExplainPage(name, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
