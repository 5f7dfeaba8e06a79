package dev.doublet.check.ambiguity;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Permission;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** Aspects that permit exactly the same on the same form. */
public final class TwoNamesOneMeaning implements Check.OfBook {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    Map<Permission, List<Aspect>> byPermission = new LinkedHashMap<>();
    facts.book().aspects().stream()
        .sorted(Comparator.comparing(Aspect::span))
        .forEach(a -> byPermission.computeIfAbsent(a.permission(), p -> new ArrayList<>()).add(a));
    List<Diagnostic> found = new ArrayList<>();
    for (List<Aspect> same : byPermission.values()) {
      for (int i = 1; i < same.size(); i++) {
        for (int j = 0; j < i; j++) {
          List<String> shared = sharedForms(same.get(j), same.get(i));
          if (!shared.isEmpty()) {
            found.add(report(same.get(j), same.get(i), shared));
            break;
          }
        }
      }
    }
    return found;
  }

  private static List<String> sharedForms(Aspect first, Aspect second) {
    TreeSet<String> shared = new TreeSet<>();
    first.patterns().forEach(p -> shared.add(p.form().name()));
    TreeSet<String> others = new TreeSet<>();
    second.patterns().forEach(p -> others.add(p.form().name()));
    shared.retainAll(others);
    return List.copyOf(shared);
  }

  private Diagnostic report(Aspect first, Aspect second, List<String> forms) {
    return finding(
            Severity.WARNING,
            second.permissionSpan(),
            Words.say("\"%s\" permits exactly what \"%s\" does", second.name(), first.name()))
        .about(List.of(first.name(), second.name()))
        .label("\"" + second.name() + "\"")
        .related(first.permissionSpan(), "\"" + first.name() + "\"")
        .fact("both allow", first.permission().words())
        .fact("both stand on", (forms.size() == 1 ? "form " : "forms ") + Words.list(forms))
        .because("aspects that ask for the same action share one name (49 CFR 236.23(c))")
        .help("give both patterns to one aspect, joined by \"or\", or say how the two differ");
  }
}
