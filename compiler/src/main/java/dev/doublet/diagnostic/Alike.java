package dev.doublet.diagnostic;

import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** Makes one of findings that differ in nothing but numbers and places. */
public final class Alike {
  private static final Pattern NUMBER =
      Pattern.compile("(?<![\\p{L}\\p{N}+])[0-9]+(?![\\p{L}\\p{N}])");

  private Alike() {}

  /**
   * All of them, and of those that are alike the first, with a few of the other places, and mends
   * of all.
   *
   * @param sorted in the order to show them
   */
  public static List<Diagnostic> drawnTogether(List<Diagnostic> sorted) {
    Map<Shape, List<Diagnostic>> alike = new LinkedHashMap<>();
    for (Diagnostic one : sorted) {
      alike.computeIfAbsent(Shape.of(one), k -> new ArrayList<>()).add(one);
    }
    return alike.values().stream().map(Alike::together).toList();
  }

  private static Diagnostic together(List<Diagnostic> alike) {
    Diagnostic first = alike.get(0);
    if (alike.size() == 1) {
      return first;
    }
    Diagnostic together = first.at(first.primary(), first.related());
    for (int i = 0; i < first.fixes().size(); i++) {
      together = together.fix(everywhere(alike, i));
    }
    return together.alsoAt(alike.stream().skip(1).map(Alike::again).toList());
  }

  private static Label again(Diagnostic said) {
    String text = said.primary().text();
    return new Label(said.primary().span(), text.isEmpty() ? "and here" : text);
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
      List<Label> related,
      List<Fact> facts,
      String why,
      String help,
      List<String> about,
      List<String> mends) {

    static Shape of(Diagnostic one) {
      return new Shape(
          one.primary().span().file(),
          one.name(),
          one.severity(),
          NUMBER.matcher(one.message()).replaceAll("0"),
          one.related(),
          one.facts(),
          one.why(),
          one.help(),
          one.about(),
          one.fixes().stream().map(fix -> fix.title() + " " + fix.safe()).toList());
    }
  }
}
