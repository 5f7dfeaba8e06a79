package dev.doublet.page;

import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Aspects for a terminal, form by form, so that those which look alike stand one below the other:
 * where it has colours a disc for each light, head by head from top to bottom, and words always.
 *
 * @param book the book
 * @param aspects some of its aspects
 */
public record AspectLook(Rulebook book, List<Aspect> aspects) {
  private static final String DISC = "\u25cf";
  private static final String LEVEL = "\u2500";
  private static final String SLANTING = "\u2572";
  private static final String UPRIGHT = "\u2502";
  static final String RESET = "\u001b[0m";

  /** Terminals have grounds of any colour, so a dark lens is neither black nor white. */
  private static final String DARK = "\u001b[90m";

  /** Copies the list. */
  public AspectLook {
    aspects = List.copyOf(aspects);
  }

  /** A row of a form: one picture of one aspect. */
  private record Row(String name, SignalPicture shown) {}

  /**
   * The text, with every name made visible.
   *
   * @param colour true for discs in 24-bit colours (SGR 38;2 of ITU-T T.416), false for words alone
   */
  public String text(boolean colour) {
    Makes makes = Makes.of(book);
    Inks inks = Inks.of(book);
    StringBuilder text = new StringBuilder();
    for (Form form : book.forms()) {
      List<Row> rows = new ArrayList<>();
      for (Aspect aspect : aspects) {
        for (Pattern pattern : aspect.patternsOn(form)) {
          rows.add(
              new Row(
                  Visible.line(aspect.name()), SignalPicture.of(makes, aspect.shownBy(pattern))));
        }
      }
      if (!rows.isEmpty()) {
        text.append(Visible.line(form.name())).append('\n');
        rows.forEach(row -> text.append(line(row, width(rows), colour ? inks : null)));
      }
    }
    return text.toString();
  }

  private static int width(List<Row> rows) {
    return rows.stream().mapToInt(row -> row.name().length()).max().orElse(0);
  }

  private static String line(Row row, int width, Inks inksOrNull) {
    String discs = inksOrNull == null ? "" : discs(row.shown(), inksOrNull) + "  ";
    String plates =
        row.shown().plates().isEmpty()
            ? ""
            : " ("
                + Words.plural(row.shown().plates().size(), "plate")
                + ": "
                + String.join(", ", row.shown().plates())
                + ")";
    String name = row.name() + " ".repeat(width - row.name().length());
    return "  " + discs + name + "  " + Visible.line(row.shown().words() + plates) + "\n";
  }

  private static String discs(SignalPicture shown, Inks inks) {
    return heads(shown, inks).stream()
        .map(discs -> String.join("", discs) + RESET)
        .collect(Collectors.joining(" "));
  }

  /** The discs of each head, from top to bottom, in their colours; who prints them resets those. */
  static List<List<String>> heads(SignalPicture shown, Inks inks) {
    List<List<String>> heads = new ArrayList<>();
    for (int i = 0; i < shown.displays().size(); i++) {
      String look = shown.displays().get(i).look();
      List<Lit> lit = shown.heads().get(i).flatMap(make -> make.lights(look)).orElse(List.of());
      String shape = shown.heads().get(i).map(make -> shape(make, look)).orElse(DISC);
      heads.add(
          lit.isEmpty()
              ? List.of(inks.of(look).map(AspectLook::paint).orElse(DARK) + shape)
              : lit.stream()
                  .map(one -> inks.of(one.colour()).map(AspectLook::paint).orElse(DARK) + shape)
                  .toList());
    }
    return heads;
  }

  /** A disc for a lamp; for an arm a stroke that is level, slanting or upright. */
  private static String shape(HeadType make, String look) {
    int at = make.positions().indexOf(look);
    int last = make.positions().size() - 1;
    return !make.isArm() ? DISC : at <= 0 ? LEVEL : at == last && last > 1 ? UPRIGHT : SLANTING;
  }

  private static String paint(Inks.Ink ink) {
    return "\u001b[38;2;"
        + ink.screen().red()
        + ";"
        + ink.screen().green()
        + ";"
        + ink.screen().blue()
        + "m";
  }
}
