package dev.doublet.layout.read;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads the warnings that a layout lives with. */
final class Acceptances {
  private final Complaints complaints;

  private Acceptances(Complaints complaints) {
    this.complaints = complaints;
  }

  /** All of them; whether they fit a warning, only the checks know. */
  static List<Acceptance> read(Section said, Complaints complaints) {
    Acceptances reading = new Acceptances(complaints);
    List<Acceptance> acceptances = new ArrayList<>();
    for (YamlNode item : said.items("accept", "a list").orElse(List.of())) {
      if (item instanceof YamlNode.Mapping mapping) {
        reading.acceptance(mapping).ifPresent(acceptances::add);
      } else {
        complaints.wrongType(item, "accept", "a list of keys with values");
      }
    }
    return acceptances;
  }

  private Optional<Acceptance> acceptance(YamlNode.Mapping mapping) {
    Section said = Section.of(mapping, Keys.ACCEPTANCE, Section.first(mapping), complaints);
    for (String key : Keys.ACCEPTANCE.words()) {
      if (!said.says(key)) {
        complaints.missingKey(
            said.place(),
            "this acceptance has no \"" + key + "\"",
            "say the check, all that its warning is about, and why it may stay.");
      }
    }
    Optional<YamlNode.Scalar> check = said.scalar("check", "the name of a check");
    Optional<List<YamlNode.Scalar>> of = said.scalars("of", "a list of names");
    Optional<YamlNode.Scalar> because = said.scalar("because", "a reason");
    if (check.isEmpty() || of.isEmpty() || because.isEmpty()) {
      return Optional.empty();
    }
    if (of.get().isEmpty()) {
      complaints.badValue(
          said.entry("of").orElseThrow().value().span(),
          "\"of\" lists nothing",
          "name all that the warning is about.");
    }
    List<String> names = of.get().stream().map(YamlNode.Scalar::text).toList();
    return Optional.of(
        new Acceptance(check.get().text(), names, because.get().text(), check.get().span()));
  }
}
