package dev.doublet.check.failure;

import dev.doublet.check.BookFacts;
import dev.doublet.check.Check;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** A cover for which no hazard is left, or that another one already has. */
public final class IdleCover implements Check.OfBook {
  /** What a rulebook alone can tell; the others depend on the LEDs and the wiring of a layout. */
  private static final Set<Fault> KNOWN =
      Set.of(Fault.LAMP_OUT, Fault.FLASHER_STUCK, Fault.PLATE_LOST);

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Cover> covers =
        facts.book().failures().covers().stream()
            .filter(c -> c.faults().stream().anyMatch(KNOWN::contains))
            .toList();
    if (covers.isEmpty()) {
      return List.of();
    }
    List<Site> sites = Site.of(facts.book());
    List<Hazard> hazards = new ArrayList<>(Hazard.of(sites.stream().map(Tried::singly).toList()));
    if (facts.asked().pairs()) {
      hazards.addAll(Hazard.of(Pairs.on(sites, Pairs.MOST_STEPS)));
    }
    List<Diagnostic> found = new ArrayList<>();
    for (Cover cover : covers) {
      List<String> idle = new ArrayList<>();
      for (Fault fault : cover.faults().stream().filter(KNOWN::contains).sorted().toList()) {
        if (cover.forms().isEmpty()) {
          if (hazards.stream().noneMatch(h -> isCovered(h, cover, fault))) {
            idle.add(fault.words());
          }
        }
        for (Form form : cover.forms()) {
          if (hazards.stream().noneMatch(h -> isCovered(h, cover, fault) && isOn(h, form))) {
            idle.add(fault.words() + " on " + form.name());
          }
        }
      }
      if (!idle.isEmpty()) {
        found.add(report(cover, idle));
      }
    }
    return found;
  }

  private static boolean isCovered(Hazard hazard, Cover cover, Fault fault) {
    return hazard.faults().contains(fault) && hazard.cover().stream().anyMatch(c -> c == cover);
  }

  private static boolean isOn(Hazard hazard, Form form) {
    return hazard.found().stream().anyMatch(f -> f.site().crew().form().equals(form));
  }

  private Diagnostic report(Cover cover, List<String> idle) {
    return finding(
            Severity.WARNING,
            cover.span(),
            Words.say("nothing is left for this to cover: %s", Words.list(idle)))
        .because("a cover that outlives its hazard would hide the next one")
        .help("take away what is idle, or the whole line");
  }
}
