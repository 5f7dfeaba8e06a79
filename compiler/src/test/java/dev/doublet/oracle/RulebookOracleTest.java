package dev.doublet.oracle;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;

/** The checks find what two solvers find in the words of random rulebooks and layouts. */
@Tag("slow")
class RulebookOracleTest {

  @Property(tries = 300, seed = "1957")
  void checksFindWhatSolversFind(@ForAll(supplier = Sketches.class) Sketch sketch) {
    Agreement.demand(sketch);
  }
}
