package dev.doublet.golden;

import dev.doublet.Versions;
import dev.doublet.diff.Changes;
import dev.doublet.diff.Comparison;
import dev.doublet.diff.Pair;
import dev.doublet.diff.Version;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Two versions of some texts. In a case, the fences of the earlier one bear names that begin with
 * {@code old/}, those of the later one {@code new/}; what both have without either is in both.
 *
 * @param texts by name
 */
public record Edition(Map<String, String> texts) {

  /** What changed between the two versions of a case. */
  public static Changes changes(Case input) {
    Map<String, String> old = new TreeMap<>();
    Map<String, String> now = new TreeMap<>();
    input
        .files()
        .forEach(
            (name, text) -> {
              if (!name.startsWith("new/")) {
                old.put(name.replaceFirst("^old/", ""), text);
              }
              if (!name.startsWith("old/")) {
                now.put(name.replaceFirst("^new/", ""), text);
              }
            });
    return changes(new Edition(old), new Edition(now));
  }

  /** What changed between two versions; files with a rulebook line and layouts are compared. */
  public static Changes changes(Edition old, Edition now) {
    TreeSet<String> names = new TreeSet<>(old.roots());
    names.addAll(now.roots());
    List<Pair> pairs = new ArrayList<>();
    names.forEach(name -> pairs.add(new Pair(old.version(name), now.version(name))));
    return Comparison.of(pairs, List.of());
  }

  private List<String> roots() {
    return texts.keySet().stream()
        .filter(name -> name.endsWith(".yaml") || texts.get(name).contains("rulebook"))
        .toList();
  }

  private Version version(String name) {
    return roots().contains(name) ? Versions.read(name, this::read) : null;
  }

  private SourceFile read(String path) throws SourceReader.Unreadable {
    if (!texts.containsKey(path)) {
      throw new SourceReader.Unreadable("there is no such file");
    }
    return new SourceFile(path, texts.get(path));
  }
}
