package dev.doublet.page;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Aspects that look alike, beside each other for a terminal that has colours: below the name of
 * each the discs of {@code look}, a line a head.
 *
 * @param names of the aspects
 * @param heads the discs of each head, from top to bottom
 */
public record TwinLook(List<String> names, List<List<String>> heads) {
  private static final int MOST = 4;
  private static final int LETTERS = 24;
  private static final String MARGIN = "    ";
  private static final String BETWEEN = "   ";

  /** Copies the lists. */
  public TwinLook {
    names = List.copyOf(names);
    heads = List.copyOf(heads);
  }

  /** Draws the findings of twins in some books, whose names are made visible, and no others. */
  public static Function<Diagnostic, String> drawing(List<Rulebook> books) {
    return said -> of(said, books).map(TwinLook::text).orElse("");
  }

  private static Optional<TwinLook> of(Diagnostic said, List<Rulebook> books) {
    List<String> forms = words(said, "forms");
    List<String> aspects = words(said, "aspects");
    List<String> picture = words(said, "picture");
    if (!said.name().equals("twin-aspects") || picture.isEmpty()) {
      return Optional.empty();
    }
    for (Rulebook book : books) {
      Optional<Form> form = book.form(forms.get(0));
      boolean theirs =
          book.aspects().stream()
              .flatMap(aspect -> aspect.patterns().stream())
              .anyMatch(pattern -> pattern.span().equals(said.primary().span()));
      if (form.isPresent() && theirs) {
        List<List<String>> heads =
            AspectLook.heads(shown(book, form.get(), picture), Inks.of(book));
        return Optional.of(new TwinLook(aspects.stream().distinct().toList(), heads));
      }
    }
    return Optional.empty();
  }

  private static List<String> words(Diagnostic said, String name) {
    return said.data().stream()
        .filter(datum -> datum instanceof Datum.Texts && datum.name().equals(name))
        .flatMap(datum -> ((Datum.Texts) datum).values().stream())
        .toList();
  }

  /** The picture that both show, which stands in patterns of the form, head by head. */
  private static SignalPicture shown(Rulebook book, Form form, List<String> picture) {
    List<Display> displays = new ArrayList<>();
    for (int place = 0; place < picture.size(); place++) {
      int at = place;
      displays.add(
          book.aspects().stream()
              .flatMap(aspect -> aspect.patternsOn(form).stream())
              .flatMap(pattern -> displays(pattern, at))
              .filter(display -> display.words().equals(picture.get(at)))
              .findFirst()
              .orElse(Display.DARK));
    }
    return SignalPicture.of(Makes.of(book), form, displays);
  }

  private static Stream<Display> displays(Pattern pattern, int place) {
    return pattern.choices().get(place).displays().stream();
  }

  private String text() {
    List<String> shown = names.stream().limit(MOST).map(TwinLook::brief).toList();
    StringBuilder text = new StringBuilder(MARGIN).append(String.join(BETWEEN, shown));
    text.append(names.size() > MOST ? BETWEEN + "\u2026" : "").append('\n');
    for (List<String> head : heads) {
      String line =
          shown.stream()
              .map(name -> centred(head, name.codePointCount(0, name.length())))
              .collect(Collectors.joining(BETWEEN));
      text.append(MARGIN).append(line.stripTrailing()).append('\n');
    }
    return text.toString();
  }

  private static String brief(String name) {
    return Visible.brief(Visible.line(name), LETTERS);
  }

  private static String centred(List<String> discs, int width) {
    int left = Math.max(0, (width - discs.size()) / 2);
    int right = Math.max(0, width - discs.size() - left);
    return " ".repeat(left) + String.join("", discs) + AspectLook.RESET + " ".repeat(right);
  }
}
