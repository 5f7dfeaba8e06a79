package dev.doublet.chart;

import dev.doublet.chart.PartsList.Part;
import dev.doublet.diagnostic.Words;
import java.util.ArrayList;
import java.util.List;

/** {@link PartsList} as text, as Markdown and as comma-separated values. */
public final class PartsListText {
  private PartsListText() {}

  /** As text. */
  public static String text(PartsList list) {
    StringBuilder out = new StringBuilder("Parts of ").append(list.title()).append("\n\n");
    Columns columns = new Columns(heads(list));
    rows(list).forEach(columns::add);
    out.append(columns.draw("")).append('\n');
    list.notes().forEach(note -> out.append(note).append('\n'));
    return out.toString();
  }

  /** As Markdown. */
  public static String markdown(PartsList list) {
    StringBuilder out = new StringBuilder("# Parts of ");
    out.append(Markdown.text(list.title())).append("\n\n").append(Markdown.heads(heads(list)));
    rows(list).forEach(row -> out.append(Markdown.row(row)));
    list.notes().forEach(note -> out.append('\n').append(note).append('\n'));
    return out.toString();
  }

  /** As comma-separated values. */
  public static String csv(PartsList list) {
    StringBuilder out = new StringBuilder(Csv.row(heads(list)));
    rows(list).forEach(row -> out.append(Csv.row(row)));
    return out.toString();
  }

  /** What the columns hold. */
  public static List<String> heads(PartsList list) {
    List<String> heads = new ArrayList<>(List.of("part", "count"));
    if (list.controllers().size() > 1) {
      list.controllers().forEach(name -> heads.add("for " + name));
    }
    if (priced(list)) {
      heads.add("each");
      heads.add("together");
    }
    return heads;
  }

  /** The rows, and what all cost together. */
  public static List<List<String>> rows(PartsList list) {
    List<List<String>> rows = new ArrayList<>();
    for (Part part : list.parts()) {
      List<String> row = new ArrayList<>(List.of(part.what(), Words.number(part.count())));
      if (list.controllers().size() > 1) {
        part.counts().forEach(count -> row.add(count == 0 ? "" : Words.number(count)));
      }
      if (priced(list)) {
        row.add(part.price() == 0 ? "" : Words.say("%.2f", part.price()));
        row.add(part.price() == 0 ? "" : Words.say("%.2f", part.cost()));
      }
      rows.add(row);
    }
    if (priced(list)) {
      double all = list.parts().stream().mapToDouble(Part::cost).sum();
      List<String> row = new ArrayList<>(heads(list).stream().map(h -> "").toList());
      row.set(0, "all that has a price");
      row.set(row.size() - 2, list.currency());
      row.set(row.size() - 1, Words.say("%.2f", all));
      rows.add(row);
    }
    return rows;
  }

  private static boolean priced(PartsList list) {
    return list.parts().stream().anyMatch(part -> part.price() > 0);
  }
}
