package dev.doublet.diagnostic;

import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** Makes one of errors that differ in nothing but numbers and places. */
final class Alike {
  private static final int FURTHER_PLACES = 3;
  private static final Pattern NUMBER =
      Pattern.compile("(?<![\\p{L}\\p{N}+])[0-9]+(?![\\p{L}\\p{N}])");

  private Alike() {}

  /**
   * All of them, and of those that are alike the first, with a few of the other places, and mends
   * of all. What tells of several places, or may be accepted, stays by itself.
   *
   * @param sorted in the order to show them
   */
  static List<Diagnostic> drawnTogether(List<Diagnostic> sorted) {
    Map<Object, List<Diagnostic>> alike = new LinkedHashMap<>();
    for (Diagnostic one : sorted) {
      boolean apart = !one.related().isEmpty() || !one.about().isEmpty();
      alike.computeIfAbsent(apart ? one : Shape.of(one), k -> new ArrayList<>()).add(one);
    }
    return alike.values().stream().map(Alike::together).toList();
  }

  private static Diagnostic together(List<Diagnostic> alike) {
    int shown = Math.min(alike.size(), 1 + FURTHER_PLACES);
    List<Label> others =
        alike.subList(1, shown).stream()
            .map(other -> new Label(other.primary().span(), "and here"))
            .toList();
    Diagnostic first = alike.get(0);
    if (others.isEmpty()) {
      return first;
    }
    Diagnostic together = first.at(first.primary(), others);
    for (int i = 0; i < first.fixes().size(); i++) {
      together = together.fix(everywhere(alike, i));
    }
    int more = alike.size() - shown;
    return more == 0 ? together : together.fact("further places", Integer.toString(more));
  }

  /** A change that is called alike in all, at all places but where two would change one text. */
  private static Fix everywhere(List<Diagnostic> alike, int fix) {
    Fix first = alike.get(0).fixes().get(fix);
    List<Fix.Edit> edits = new ArrayList<>();
    for (Diagnostic other : alike) {
      List<Fix.Edit> more = other.fixes().get(fix).edits();
      if (more.stream().noneMatch(edit -> edits.stream().anyMatch(edit::overlaps))) {
        edits.addAll(more);
      }
    }
    return new Fix(first.title(), edits, first.safe());
  }

  /** What is said, whatever the numbers in it. */
  private record Shape(
      SourceFile file,
      String name,
      Severity severity,
      String message,
      List<Fact> facts,
      String why,
      String help,
      List<String> mends) {

    static Shape of(Diagnostic one) {
      return new Shape(
          one.primary().span().file(),
          one.name(),
          one.severity(),
          NUMBER.matcher(one.message()).replaceAll("0"),
          one.facts(),
          one.why(),
          one.help(),
          one.fixes().stream().map(fix -> fix.title() + " " + fix.safe()).toList());
    }
  }
}
