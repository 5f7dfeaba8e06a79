package dev.doublet.cells;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;

/**
 * A random partition of the space of some variables, made by cutting it in two again and again.
 * Every point lies in exactly one part, so what is then taken away or added is known exactly.
 */
public final class SplitTree {
  private SplitTree() {}

  /** Variables of 2 to 8 values. */
  public static List<Variable> variables(int count, Random random) {
    List<Variable> variables = new ArrayList<>();
    for (int v = 0; v < count; v++) {
      variables.add(new Variable("v" + v, 2 + random.nextInt(7)));
    }
    return variables;
  }

  /** Cuts the space into the given number of rows, in random order, row r with the result r. */
  public static List<Row> rows(List<Variable> variables, int count, Random random) {
    List<List<Values>> parts = new ArrayList<>();
    parts.add(variables.stream().map(v -> Values.all(v.size())).toList());
    while (parts.size() < count) {
      int chosen = random.nextInt(parts.size());
      List<Values> part = parts.get(chosen);
      int variable = random.nextInt(part.size());
      Values whole = part.get(variable);
      if (whole.count() > 1) {
        Values some = someOf(whole, random);
        parts.set(chosen, with(part, variable, some));
        parts.add(with(part, variable, whole.minus(some)));
      }
    }
    Collections.shuffle(parts, random);
    List<Row> rows = new ArrayList<>();
    for (List<Values> part : parts) {
      rows.add(new Row(part, rows.size()));
    }
    return rows;
  }

  /** The row with one or two of its tests made wild. */
  public static Row widened(Row row, Random random) {
    List<Values> sets = row.sets();
    for (int i = 0; i < 2; i++) {
      int variable = random.nextInt(sets.size());
      sets = with(sets, variable, Values.all(sets.get(variable).size()));
    }
    return new Row(sets, row.result());
  }

  private static Values someOf(Values whole, Random random) {
    int[] values = SmallTables.values(whole).toArray();
    Values some = Values.only(whole.size(), values[random.nextInt(values.length)]);
    for (int value : values) {
      if (random.nextBoolean() && some.count() < values.length - 1) {
        some = Values.union(whole.size(), List.of(some, Values.only(whole.size(), value)));
      }
    }
    return some;
  }

  private static List<Values> with(List<Values> sets, int variable, Values set) {
    List<Values> changed = new ArrayList<>(sets);
    changed.set(variable, set);
    return List.copyOf(changed);
  }
}
