package dev.doublet.oracle;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** The checks find what two solvers find in the words of random rulebooks and layouts. */
class RulebookOracleTest {

  @Property(tries = 300, seed = "1957")
  void checksFindWhatSolversFind(@ForAll(supplier = Sketches.class) Sketch sketch) {
    Agreement.demand(sketch);
  }
}
