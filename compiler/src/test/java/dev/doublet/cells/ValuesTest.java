package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

class ValuesTest {

  /** Two sets of one size, each as values to be put in. */
  record Two(int size, List<Integer> one, List<Integer> other) {}

  @Property(tries = 1_000, seed = "1957")
  void setsAgreeWithBitSets(@ForAll("two") Two two) {
    Values one = values(two.size, two.one);
    Values other = values(two.size, two.other);
    BitSet oneBits = bits(two.one);
    BitSet otherBits = bits(two.other);

    assertSame(one, oneBits);
    BitSet and = (BitSet) oneBits.clone();
    and.and(otherBits);
    assertSame(one.and(other), and);
    BitSet or = (BitSet) oneBits.clone();
    or.or(otherBits);
    assertSame(Values.union(two.size, List.of(one, other)), or);
    BitSet minus = (BitSet) oneBits.clone();
    minus.andNot(otherBits);
    assertSame(one.minus(other), minus);
    BitSet complement = (BitSet) oneBits.clone();
    complement.flip(0, two.size);
    assertSame(one.complement(), complement);

    assertThat(one.intersects(other)).isEqualTo(oneBits.intersects(otherBits));
    assertThat(other.containsAll(one)).isEqualTo(minus.isEmpty());
    assertThat(or.equals(oneBits))
        .isEqualTo(Values.union(two.size, List.of(one, other)).equals(one));
    assertThat(or.equals(oneBits)).isEqualTo(one.containsAll(other));
  }

  @Property(tries = 200, seed = "1957")
  void rangesAreTheirValues(@ForAll("two") Two two) {
    int from = two.one.stream().min(Integer::compare).orElse(0);
    int to = two.one.stream().max(Integer::compare).orElse(0);
    Values range = Values.range(two.size, from, to);
    assertThat(range).isEqualTo(Values.of(two.size, IntStream.range(from, to).toArray()));
    assertThat(range).hasSameHashCodeAs(Values.of(two.size, IntStream.range(from, to).toArray()));
  }

  @Test
  void aSetReadsAsItsValuesAndRanges() {
    assertThat(Values.all(64)).hasToString("-");
    assertThat(Values.of(64, 63, 1, 2, 3)).hasToString("{1..3, 63}");
    assertThat(Values.of(2_048)).hasToString("{}");
    assertThat(Values.only(65_536, 65_535).complement()).hasToString("{0..65534}");
  }

  @Test
  void valuesOutsideTheVariableAreRefused() {
    assertThatThrownBy(() -> Values.only(64, 64)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Values.of(100, -1)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Values.range(100, 5, 4)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Values.all(0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Values.of(7).first()).isInstanceOf(IllegalStateException.class);
    assertThat(Values.all(7).contains(7)).isFalse();
    assertThat(Values.all(70).contains(-1)).isFalse();
  }

  @Provide
  Arbitrary<Two> two() {
    return Arbitraries.of(1, 2, 5, 63, 64, 65, 66, 130)
        .flatMap(
            size -> {
              Arbitrary<List<Integer>> list =
                  Arbitraries.integers().between(0, size - 1).list().ofMaxSize(2 * size);
              return Combinators.combine(list, list).as((a, b) -> new Two(size, a, b));
            });
  }

  private static Values values(int size, List<Integer> list) {
    return Values.of(size, list.stream().mapToInt(x -> x).toArray());
  }

  private static BitSet bits(List<Integer> list) {
    BitSet bits = new BitSet();
    list.forEach(bits::set);
    return bits;
  }

  private static void assertSame(Values values, BitSet bits) {
    assertThat(values.count()).isEqualTo(bits.cardinality());
    assertThat(values.isEmpty()).isEqualTo(bits.isEmpty());
    assertThat(values.isAll()).isEqualTo(bits.cardinality() == values.size());
    assertThat(IntStream.range(0, values.size()).filter(values::contains).toArray())
        .isEqualTo(bits.stream().toArray());
    if (!bits.isEmpty()) {
      assertThat(values.first()).isEqualTo(bits.nextSetBit(0));
    }
  }
}
