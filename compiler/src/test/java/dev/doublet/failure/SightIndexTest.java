package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.failure.Before.Sight;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import dev.doublet.rulebook.Pattern;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

class SightIndexTest {
  private static final Span SPAN = new SourceFile("b.aspects", "").span(0, 0);
  private static final List<Display> DISPLAYS =
      List.of(
          Display.DARK,
          Display.steady("red"),
          Display.steady("green"),
          new Display("red", "flash"));
  private static final List<Form> FORMS =
      List.of(
          new Form("one", Mount.IN_LINE, List.of("a"), false, SPAN),
          new Form("two", Mount.IN_LINE, List.of("a", "b"), false, SPAN),
          new Form("three", Mount.IN_LINE, List.of("a", "b", "c"), false, SPAN),
          new Form("low", Mount.DWARF, List.of("a", "b"), false, SPAN));

  private final Random random = new Random(14);

  private Glimpse glimpse() {
    return Glimpse.of(DISPLAYS.get(random.nextInt(DISPLAYS.size())));
  }

  private Sight sight() {
    Form form = FORMS.get(random.nextInt(FORMS.size()));
    return new Sight(form, form.places().stream().map(p -> glimpse()).toList(), List.of());
  }

  private Pattern pattern() {
    Form form = FORMS.get(random.nextInt(FORMS.size()));
    List<Choice> choices = new ArrayList<>();
    for (int head = 0; head < form.places().size(); head++) {
      choices.add(new Choice(DISPLAYS.stream().filter(d -> random.nextInt(3) == 0).toList(), SPAN));
    }
    return new Pattern(form, List.of(), choices, SPAN);
  }

  /** What the rule says, head by head. */
  private static boolean hasPart(Pattern pattern, Sight sight) {
    List<Glimpse> lit = sight.seen().stream().filter(Glimpse::isLit).toList();
    boolean same = pattern.form().equals(sight.form());
    boolean shorter =
        Crew.mayBeTaken(sight.form(), pattern.form())
            && lit.size() == pattern.form().places().size();
    List<Glimpse> seen = same ? sight.seen() : lit;
    for (int head = 0; (same || shorter) && head < seen.size(); head++) {
      Choice choice = pattern.choices().get(head);
      if (seen.get(head).isLit() && seen.get(head).maybe().stream().noneMatch(choice::accepts)) {
        return false;
      }
    }
    return same || shorter;
  }

  @Test
  void finds_the_sights_in_which_a_pattern_has_a_part() {
    Set<Sight> sights = new LinkedHashSet<>();
    while (sights.size() < 60) {
      sights.add(sight());
    }
    SightIndex index = new SightIndex(sights);
    assertThat(index.all().stream().mapToObj(index::get)).containsExactlyElementsOf(sights);
    for (int i = 0; i < 500; i++) {
      Pattern pattern = pattern();
      assertThat(index.concernedBy(pattern).stream().mapToObj(index::get))
          .containsExactlyElementsOf(sights.stream().filter(s -> hasPart(pattern, s)).toList());
    }
    for (Form form : FORMS) {
      assertThat(index.of(form).stream().mapToObj(index::get))
          .containsExactlyElementsOf(sights.stream().filter(s -> s.form().equals(form)).toList());
    }
  }
}
