package dev.doublet.diff;

import dev.doublet.check.Check;
import dev.doublet.check.Checks;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.report.Findings.Finding;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Findings that are new, gone, or accepted now. */
final class FindingChanges {
  /** What findings of a family of checks are about, by the name of its package. */
  static final Map<String, Consequence> FAMILIES =
      Map.of(
          "ambiguity", Consequence.MORE,
          "failure", Consequence.MORE,
          "sequence", Consequence.MORE,
          "expectation", Consequence.MORE,
          "coverage", Consequence.SEEN,
          "colour", Consequence.SEEN,
          "wording", Consequence.SEEN,
          "budget", Consequence.WORK,
          "letters", Consequence.TEXT,
          "acceptance", Consequence.TEXT);

  private static final Map<String, Consequence> CHECKS = checks();

  private FindingChanges() {}

  private static Map<String, Consequence> checks() {
    Map<String, Consequence> checks = new HashMap<>();
    for (Check<?> check : Checks.all()) {
      String room = check.getClass().getPackageName();
      String family = room.substring(room.lastIndexOf('.') + 1);
      checks.put(check.name(), FAMILIES.getOrDefault(family, Consequence.SEEN));
    }
    // A cover that covers nothing lets no crew do more.
    checks.put("idle-cover", Consequence.TEXT);
    return checks;
  }

  /**
   * What is found of one version and not of the other.
   *
   * @param names old names of what was renamed, with the new ones
   */
  static List<Event> of(Version was, Version is, Map<String, String> names) {
    Map<String, Finding> before = keyed(was, names, files(was, is));
    Map<String, Finding> after = keyed(is, Map.of(), Map.of());
    List<Event> events = new ArrayList<>();
    after.forEach(
        (key, finding) -> {
          Finding old = before.get(key);
          boolean found = finding.said().isFinding();
          boolean known = old != null && old.said().isFinding();
          if (found && !known) {
            events.add(event(Sort.FINDING_NEW, is, finding, "is new: "));
          } else if (!found && known) {
            events.add(event(Sort.FINDING_ACCEPTED, is, finding, "is accepted now: "));
          }
        });
    before.forEach(
        (key, finding) -> {
          if (finding.said().isFinding() && !after.containsKey(key)) {
            events.add(event(Sort.FINDING_GONE, was, finding, "is gone: "));
          }
        });
    return events;
  }

  /**
   * Files that have another name now: what both versions are of, the rulebook of a layout, and
   * those of the same text, where only one fits.
   */
  private static Map<String, String> files(Version was, Version is) {
    Map<String, String> files = new HashMap<>();
    was.texts()
        .forEach(
            (old, text) -> {
              List<String> alike =
                  is.texts().entrySet().stream()
                      .filter(
                          e -> e.getValue().equals(text) && !was.texts().containsKey(e.getKey()))
                      .map(Map.Entry::getKey)
                      .toList();
              if (!is.texts().containsKey(old) && alike.size() == 1) {
                files.put(old, alike.get(0));
              }
            });
    files.put(was.bookPath(), is.bookPath());
    files.put(was.path(), is.path());
    return files;
  }

  /** Findings of what was accepted are notes; other notes are nothing that comes or goes. */
  private static Map<String, Finding> keyed(
      Version version, Map<String, String> names, Map<String, String> files) {
    Map<String, Finding> keyed = new LinkedHashMap<>();
    for (Finding finding : version.findings().all()) {
      Diagnostic said = finding.said();
      if (said.isFinding() || said.data().stream().anyMatch(d -> d.name().equals("accepted"))) {
        List<String> key = new ArrayList<>();
        key.add(files.getOrDefault(finding.file(), finding.file()));
        key.add(said.name());
        // In the order of the new names.
        about(said).stream().map(part -> names.getOrDefault(part, part)).sorted().forEach(key::add);
        keyed.putIfAbsent(String.join("\n", key), finding);
      }
    }
    return keyed;
  }

  /**
   * What it is about, or the words of its data, but for the count of places. Where it has neither,
   * what it says: both versions are read by one compiler, and so in the same words.
   */
  private static List<String> about(Diagnostic said) {
    if (!said.about().isEmpty()) {
      return said.about().stream().sorted().toList();
    }
    List<String> words = new ArrayList<>();
    for (Datum datum : said.data()) {
      if (datum instanceof Datum.Texts data && !data.name().equals("site")) {
        words.addAll(data.values());
      }
    }
    return words.isEmpty() ? List.of(said.message()) : words;
  }

  private static Event event(Sort sort, Version of, Finding finding, String said) {
    Diagnostic found = finding.said();
    boolean gone = sort == Sort.FINDING_GONE;
    Consequence consequence =
        gone ? Consequence.TEXT : CHECKS.getOrDefault(found.name(), Consequence.SEEN);
    return Event.of(sort, consequence, Subject.of("finding", found.name()), said + found.message())
        .at(String.join(", ", about(found)))
        .because(
            found.data().stream()
                .filter(d -> d instanceof Datum.Texts && d.name().equals("accepted"))
                .map(d -> String.join(" ", ((Datum.Texts) d).values()))
                .findFirst()
                .orElse(""))
        .in(finding.file().equals(of.path()) ? "" : finding.file());
  }
}
