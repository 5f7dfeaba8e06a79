package dev.doublet.cells;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/** Tables small enough to try every point, and the points of anything in them. */
public final class SmallTables {
  private static final int[] SMALL = {1, 2, 2, 3, 3, 4, 5};

  /** More values than fit in a long. */
  private static final int LARGE = 70;

  private SmallTables() {}

  /**
   * Up to four small variables, or one large one among up to two small ones, and up to nine rows,
   * with every kind of set.
   */
  public static Table any(Random random) {
    List<Integer> sizes = new ArrayList<>();
    boolean large = random.nextInt(4) == 0;
    for (int count = random.nextInt(large ? 3 : 5); count > 0; count--) {
      sizes.add(SMALL[random.nextInt(SMALL.length)]);
    }
    if (large) {
      sizes.add(random.nextInt(sizes.size() + 1), LARGE);
    }
    int wildness = random.nextInt(10);
    List<Row> rows = new ArrayList<>();
    for (int count = random.nextInt(10); count > 0; count--) {
      List<Values> sets = sizes.stream().map(size -> set(size, wildness, random)).toList();
      rows.add(new Row(sets, random.nextInt(3)));
    }
    return new Table(
        IntStream.range(0, sizes.size())
            .mapToObj(v -> new Variable("v" + v, sizes.get(v)))
            .toList(),
        rows);
  }

  private static Values set(int size, int wildness, Random random) {
    if (random.nextInt(10) < wildness) {
      return Values.all(size);
    }
    int value = random.nextInt(size);
    return switch (random.nextInt(16)) {
      case 0 -> Values.of(size);
      case 1, 2, 3, 4 -> Values.only(size, value);
      case 5, 6 -> Values.only(size, value).complement();
      case 7, 8 -> Values.range(size, 0, value + 1);
      case 9, 10 -> Values.range(size, value, size);
      default ->
          Values.of(size, IntStream.range(0, size).filter(x -> random.nextInt(3) > 0).toArray());
    };
  }

  /** Every point of a table's space. */
  static List<List<Integer>> points(Table table) {
    return points(table.variables().stream().map(v -> Values.all(v.size())).toList());
  }

  /** Every point whose values lie in the given sets. */
  static List<List<Integer>> points(List<Values> sets) {
    List<List<Integer>> points = List.of(List.of());
    for (Values set : sets) {
      points =
          points.stream()
              .flatMap(before -> values(set).mapToObj(value -> plus(before, value)))
              .toList();
    }
    return points;
  }

  /** The values in a set, one asked for after the other. */
  public static IntStream values(Values set) {
    return IntStream.range(0, set.size()).filter(set::contains);
  }

  /** Tells, value by value, whether a row covers a point. */
  static boolean covers(Row row, List<Integer> point) {
    return IntStream.range(0, point.size()).allMatch(v -> row.sets().get(v).contains(point.get(v)));
  }

  private static List<Integer> plus(List<Integer> before, int last) {
    List<Integer> longer = new ArrayList<>(before);
    longer.add(last);
    return longer;
  }
}
