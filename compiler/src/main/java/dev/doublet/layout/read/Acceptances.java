package dev.doublet.layout.read;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;

/** Reads the warnings that a layout lives with. */
final class Acceptances {
  private Acceptances() {}

  /** All of them; whether they fit a warning, only the checks know. */
  static List<Acceptance> read(Section layout, Complaints complaints) {
    return layout.read(Keys.ACCEPT).orElse(List.of()).stream()
        .flatMap(Optional::stream)
        .map(m -> Section.listed(m, Keys.ACCEPTANCE, complaints))
        .flatMap(said -> acceptance(said).stream())
        .toList();
  }

  private static Optional<Acceptance> acceptance(Section said) {
    Optional<YamlNode.Scalar> check = said.read(Keys.CHECK);
    Optional<List<YamlNode.Scalar>> of = said.read(Keys.OF);
    Optional<YamlNode.Scalar> because = said.read(Keys.BECAUSE);
    if (check.isEmpty() || of.isEmpty()) {
      return Optional.empty();
    }
    List<String> names = of.get().stream().map(YamlNode.Scalar::text).toList();
    String reason = because.map(YamlNode.Scalar::text).orElse("");
    return Optional.of(new Acceptance(check.get().text(), names, reason, check.get().span()));
  }
}
