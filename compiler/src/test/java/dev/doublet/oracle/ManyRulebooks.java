package dev.doublet.oracle;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/**
 * The same as {@link RulebookOracleTest} at length. It takes minutes, so it runs only when asked
 * for: {@code mvn test -Poracles}.
 */
class ManyRulebooks {

  @Property(tries = 20_000, seed = "1957")
  void checksFindWhatSolversFind(@ForAll(supplier = Sketches.class) Sketch sketch) {
    Agreement.demand(sketch);
  }
}
