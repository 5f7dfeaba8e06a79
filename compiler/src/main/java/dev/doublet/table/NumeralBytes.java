package dev.doublet.table;

import dev.doublet.table.TableModel.Part;
import dev.doublet.table.TableModel.State;
import java.util.ArrayList;
import java.util.List;

/**
 * The pictures of a look of which one head shows numbers: what the other LEDs show once for all
 * numbers, and what that head shows once for all that the others may show.
 *
 * @param rows for each state which row it shows
 * @param others the rows: the state whose figure would be the first, and the lights of the others
 * @param figures the lights of the head that shows numbers
 */
record NumeralBytes(List<Integer> rows, List<Row> others, List<List<Integer>> figures) {
  private static final int FIGURES = 256;

  private record Row(int first, List<Integer> lights) {}

  static NumeralBytes of(List<State> states, Part numeral) {
    List<Integer> rows = new ArrayList<>();
    List<Row> others = new ArrayList<>();
    List<List<Integer>> figures = new ArrayList<>();
    for (int state = 0; state < states.size(); state++) {
      List<Integer> lights = states.get(state).lights();
      int figure = place(figures, numeral.of(lights));
      int first = Math.floorMod(state - figure, FIGURES);
      rows.add(place(others, new Row(first, numeral.others(lights))));
    }
    return new NumeralBytes(rows, others, figures);
  }

  private static <T> int place(List<T> among, T one) {
    if (!among.contains(one)) {
      among.add(one);
    }
    return among.indexOf(one);
  }

  /** All of it. */
  void write(Bytes piece, Part numeral) {
    piece.add(numeral.first(), numeral.count(), others.size(), figures.size());
    rows.forEach(piece::write);
    for (Row row : others) {
      piece.write(row.first());
      row.lights().forEach(piece::write);
    }
    figures.forEach(figure -> figure.forEach(piece::write));
  }

  /** How many bytes. */
  int size(int leds, Part numeral) {
    return 4
        + rows.size()
        + others.size() * (1 + leds - numeral.count())
        + figures.size() * numeral.count();
  }
}
