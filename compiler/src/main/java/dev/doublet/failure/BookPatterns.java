package dev.doublet.failure;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * All patterns of a rulebook, found by their forms and by where they are written: what would mend a
 * hazard asks of them again and again.
 */
final class BookPatterns {
  private final Map<Form, PatternIndex> byForm = new LinkedHashMap<>();
  private final Map<List<Choice>, List<Pattern>> writtenAlike = new HashMap<>();
  private final Map<Pattern, List<Aspect>> aspects = new HashMap<>();

  BookPatterns(Rulebook book) {
    for (Form form : book.forms()) {
      PatternIndex its = PatternIndex.of(book, form);
      byForm.put(form, its);
      for (Reads reads : its.patterns()) {
        Pattern pattern = reads.pattern();
        writtenAlike.computeIfAbsent(pattern.choices(), c -> new ArrayList<>()).add(pattern);
        aspects.computeIfAbsent(pattern, p -> new ArrayList<>()).add(reads.aspect());
      }
    }
  }

  /** Those of each form. */
  Collection<PatternIndex> forms() {
    return byForm.values();
  }

  /** Those of one form. */
  PatternIndex of(Form form) {
    return byForm.get(form);
  }

  /** All that are written where some are: those of more forms, and of likenesses. */
  Set<Pattern> writtenWith(Collection<Pattern> some) {
    Set<Pattern> all = new LinkedHashSet<>();
    some.forEach(p -> all.addAll(writtenAlike.get(p.choices())));
    return all;
  }

  /** The aspects that one is a pattern of. */
  List<Aspect> aspects(Pattern pattern) {
    return aspects.get(pattern);
  }
}
