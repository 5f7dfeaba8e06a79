package dev.doublet.cells;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/**
 * Looks for the points of a box that no row covers, by splitting the box until each part lies in
 * one row or meets none. It gives up when its budget is spent.
 */
final class Search {
  private final Sheet sheet;
  private final StepBudget budget;
  private final Predicate<Values[]> onGap;

  /**
   * Prepares a search.
   *
   * @param sheet the rows to search among
   * @param budget from which each box takes a step, and one for each row looked at
   * @param onGap takes a box no row meets, which it must not change; false ends the search
   */
  Search(Sheet sheet, StepBudget budget, Predicate<Values[]> onGap) {
    this.sheet = sheet;
    this.budget = budget;
    this.onGap = onGap;
  }

  /**
   * Hands over disjoint boxes that together are the uncovered points of a box.
   *
   * @param sets the box; with an empty set it has no point, and the search ends at once
   * @param rows the rows that may meet it
   * @return whether the search came to its end
   */
  boolean explore(Values[] sets, int[] rows) {
    if (Arrays.stream(sets).anyMatch(Values::isEmpty)) {
      return true;
    }
    Deque<Iterator<Box>> open = new ArrayDeque<>();
    open.push(List.of(new Box(sets.clone(), rows)).iterator());
    while (!open.isEmpty()) {
      if (!open.peek().hasNext()) {
        open.pop();
        continue;
      }
      Optional<Unsettled> left = settle(open.peek().next());
      if (budget.ranOut()) {
        return false;
      }
      if (left.isPresent()) {
        Box box = left.get().box;
        if (box.rows.length > 0) {
          open.push(split(box, left.get().asked));
        } else if (!onGap.test(box.sets)) {
          return false;
        }
      }
    }
    return true;
  }

  /** A part of the space, and the rows that may meet it. */
  private record Box(Values[] sets, int[] rows) {}

  /** What is left of a box, and how many of its rows test each variable. */
  private record Unsettled(Box box, int[] asked) {}

  /**
   * Sorts out the rows that do not meet the box, and takes away what is covered by rows that test
   * one variable only.
   *
   * @return what is left of the box, whose rows test two variables or more; nothing if it is
   *     covered
   */
  private Optional<Unsettled> settle(Box box) {
    Values[] sets = box.sets;
    int[] rows = box.rows;
    int[] open = new int[sets.length];
    while (budget.spend(rows.length + 1L)) {
      int[] kept = new int[rows.length];
      int count = 0;
      int[] asked = new int[sets.length];
      Map<Integer, List<Integer>> single = new TreeMap<>();
      for (int row : rows) {
        int opened = sheet.open(row, sets, open);
        if (opened == 0) {
          return Optional.empty();
        }
        if (opened == 1) {
          single.computeIfAbsent(open[0], v -> new ArrayList<>()).add(row);
        } else if (opened > 1) {
          kept[count++] = row;
          for (int i = 0; i < opened; i++) {
            asked[open[i]]++;
          }
        }
      }
      rows = Arrays.copyOf(kept, count);
      for (Map.Entry<Integer, List<Integer>> entry : single.entrySet()) {
        int v = entry.getKey();
        List<Values> covered = entry.getValue().stream().map(row -> sheet.set(row, v)).toList();
        sets[v] = sets[v].minus(Values.union(sets[v].size(), covered));
        if (sets[v].isEmpty()) {
          return Optional.empty();
        }
      }
      if (single.isEmpty() || count == 0) {
        return Optional.of(new Unsettled(new Box(sets, rows), asked));
      }
    }
    return Optional.empty();
  }

  /**
   * Splits a box on a variable that many rows test: between their sets if these fall apart, so that
   * only wild rows are looked at again, and otherwise into the values that no row tells apart.
   */
  private Iterator<Box> split(Box box, int[] asked) {
    int[] order =
        IntStream.range(0, asked.length)
            .boxed()
            .sorted(Comparator.comparingInt(v -> -asked[v]))
            .mapToInt(v -> v)
            .toArray();
    for (int v : order) {
      if (2 * asked[v] < asked[order[0]]) {
        break;
      }
      Cut cut = cut(box, v);
      List<Partition.Part> parts = Partition.apart(box.sets[v], cut.sets()).parts();
      if (parts.size() > 1) {
        return cut.boxes(parts);
      }
    }
    Cut cut = cut(box, order[0]);
    return cut.boxes(Partition.classes(box.sets[order[0]], cut.sets()).parts());
  }

  private Cut cut(Box box, int variable) {
    Values[] sets = new Values[box.rows.length];
    int[] testing = new int[box.rows.length];
    int[] wild = new int[box.rows.length];
    int count = 0;
    int wildCount = 0;
    for (int row : box.rows) {
      Values set = sheet.set(row, variable);
      if (set.containsAll(box.sets[variable])) {
        wild[wildCount++] = row;
      } else {
        sets[count] = set;
        testing[count++] = row;
      }
    }
    return new Cut(
        box.sets,
        variable,
        Arrays.copyOf(sets, count),
        Arrays.copyOf(testing, count),
        Arrays.copyOf(wild, wildCount));
  }

  /**
   * A box about to be split on a variable.
   *
   * @param sets the sets of the rows that test the variable
   * @param testing those rows
   * @param wild the other rows
   */
  private record Cut(Values[] box, int variable, Values[] sets, int[] testing, int[] wild) {

    /** The boxes, those with fewest rows first: a gap is likeliest there. */
    Iterator<Box> boxes(List<Partition.Part> parts) {
      List<Partition.Part> sorted = new ArrayList<>(parts);
      sorted.sort(Comparator.comparingInt(part -> part.holders().length));
      // Each box is made when its turn comes: together they could hold every wild row many times.
      return sorted.stream().map(this::box).iterator();
    }

    private Box box(Partition.Part part) {
      int[] rows = Arrays.copyOf(wild, wild.length + part.holders().length);
      for (int i = 0; i < part.holders().length; i++) {
        rows[wild.length + i] = testing[part.holders()[i]];
      }
      Values[] inner = box.clone();
      inner[variable] = part.values();
      return new Box(inner, rows);
    }
  }
}
