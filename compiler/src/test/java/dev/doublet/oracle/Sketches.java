package dev.doublet.oracle;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ArbitrarySupplier;
import net.jqwik.api.RandomDistribution;

/** Random sketches, which shrink as the numbers thrown for them do. */
final class Sketches implements ArbitrarySupplier<Sketch> {
  private static final int THROWS = 300;

  @Override
  public Arbitrary<Sketch> get() {
    return Arbitraries.integers()
        .between(0, 9_999)
        .withDistribution(RandomDistribution.uniform())
        .list()
        .ofSize(THROWS)
        .map(thrown -> Sketch.of(new Dice(thrown)))
        .withoutEdgeCases();
  }
}
