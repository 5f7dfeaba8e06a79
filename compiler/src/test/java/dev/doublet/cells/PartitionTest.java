package dev.doublet.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** The parts are compared with ones found value by value. */
class PartitionTest {

  /** A domain, and sets that meet it. */
  record Case(Values domain, Values[] sets) {
    static Case any(Random random) {
      int size = random.nextBoolean() ? 1 + random.nextInt(12) : 65 + random.nextInt(12);
      Values domain = either(some(size, 2, random), Values.only(size, random.nextInt(size)));
      int sparsity = 2 + random.nextInt(size);
      Values[] sets =
          IntStream.range(0, random.nextInt(7))
              .mapToObj(s -> some(size, sparsity, random))
              .filter(domain::intersects)
              .toArray(Values[]::new);
      return new Case(domain, sets);
    }

    private static Values some(int size, int sparsity, Random random) {
      return Values.of(
          size, IntStream.range(0, size).filter(x -> random.nextInt(sparsity) == 0).toArray());
    }

    /** Which sets hold a value. */
    List<Integer> holders(int value) {
      return IntStream.range(0, sets.length).filter(s -> sets[s].contains(value)).boxed().toList();
    }

    /** Which sets meet a part. */
    List<Integer> meeting(Values part) {
      return IntStream.range(0, sets.length).filter(s -> sets[s].intersects(part)).boxed().toList();
    }
  }

  @Property(tries = 1_000, seed = "1957")
  void classesAreTheValuesWithTheSameHolders(@ForAll("cases") Case c) {
    Map<List<Integer>, List<Integer>> byHolders = new HashMap<>();
    SmallTables.values(c.domain)
        .forEach(x -> byHolders.computeIfAbsent(c.holders(x), h -> new ArrayList<>()).add(x));
    Map<List<Integer>, List<Integer>> found = new HashMap<>();
    for (Partition.Part part : Partition.classes(c.domain, c.sets).parts()) {
      List<Integer> values = SmallTables.values(part.values()).boxed().toList();
      assertThat(found.put(holders(part), values)).isNull();
    }
    assertThat(found).isEqualTo(byHolders);
  }

  @Property(tries = 1_000, seed = "1957")
  void partsThatComeApartAreHeldTogetherBySetsThatMeet(@ForAll("cases") Case c) {
    List<Partition.Part> parts = Partition.apart(c.domain, c.sets).parts();
    Values together = Values.of(c.domain.size());
    for (Partition.Part part : parts) {
      assertThat(part.values().intersects(together)).isFalse();
      together = either(together, part.values());
      assertThat(holders(part)).isEqualTo(c.meeting(part.values()));
      for (int s : part.holders()) {
        assertThat(part.values().containsAll(c.sets[s].and(c.domain))).isTrue();
      }
      assertThat(part.holders().length == 0 || isJoined(part, c)).isTrue();
    }
    assertThat(together).isEqualTo(c.domain);
    assertThat(parts).filteredOn(part -> part.holders().length == 0).hasSizeLessThanOrEqualTo(1);
  }

  /** Starts from one set of a part, and adds sets that meet what is there until none does. */
  private static boolean isJoined(Partition.Part part, Case c) {
    Values reached = c.sets[part.holders()[0]].and(c.domain);
    for (int round = 0; round < part.holders().length; round++) {
      for (int s : part.holders()) {
        Values set = c.sets[s].and(c.domain);
        reached = reached.intersects(set) ? either(reached, set) : reached;
      }
    }
    return reached.equals(part.values());
  }

  private static Values either(Values one, Values other) {
    return Values.union(one.size(), List.of(one, other));
  }

  private static List<Integer> holders(Partition.Part part) {
    return Arrays.stream(part.holders()).boxed().toList();
  }

  @Provide
  Arbitrary<Case> cases() {
    return Arbitraries.randomValue(Case::any);
  }
}
