package dev.doublet.rulebook;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * The numbers that numerals of a rulebook show, and the speeds that they stand for.
 *
 * @param figures each once, 1 to 999, in the order declared; empty when the book has none
 * @param times what a number is multiplied by to be a speed in the rulebook's unit
 * @param speeds for each number its speed: the one that the book names so, or one named by its
 *     figure
 */
public record Numbers(List<Integer> figures, int times, List<Speed> speeds) {
  /** Of a book without numerals. */
  public static final Numbers NONE = new Numbers(List.of(), 1, List.of());

  /** Copies the lists. */
  public Numbers {
    figures = List.copyOf(figures);
    speeds = List.copyOf(speeds);
  }

  /** As the language says it: "numbers times 10 { 4 6 8 }"; empty without numbers. */
  public String words() {
    return figures.isEmpty()
        ? ""
        : figures.stream()
            .map(String::valueOf)
            .collect(
                Collectors.joining(
                    " ", "numbers " + (times > 1 ? "times " + times : "") + " { ", " }"))
            .replace("  ", " ");
  }

  /** What a numeral may show, in the order declared. */
  public List<Display> displays() {
    return figures.stream().map(Numbers::display).toList();
  }

  /** The display of one number. */
  static Display display(int figure) {
    return Display.steady(Integer.toString(figure));
  }

  /** The speed of one number. */
  Speed speed(int figure) {
    return speeds.get(figures.indexOf(figure));
  }

  /** The speed of a number that is not known: any of them. */
  Speed any(String letter) {
    int least = speeds.stream().mapToInt(Speed::figure).min().orElse(0);
    int most = speeds.stream().mapToInt(Speed::figure).max().orElse(0);
    return new Speed(
        Numerals.words(letter), Speed.Rank.NUMERAL, least, most, false, speeds.get(0).span());
  }

  /** A text with some number for each letter in it, whatever the letter. */
  String in(String text) {
    List<String> letters = figures.isEmpty() ? List.of() : Numerals.lettersOf(text);
    List<Integer> first = letters.stream().map(l -> figures.get(0)).toList();
    return new Numerals("", letters, this, first).in(text);
  }

  /** Every way to give some letters a number, the last letter's changing first. */
  List<List<Integer>> each(int letters) {
    List<List<Integer>> all = List.of(List.of());
    for (int i = 0; i < letters; i++) {
      List<List<Integer>> longer = new ArrayList<>();
      for (List<Integer> start : all) {
        for (int figure : figures) {
          List<Integer> next = new ArrayList<>(start);
          next.add(figure);
          longer.add(List.copyOf(next));
        }
      }
      all = longer;
    }
    return all;
  }

  /** The place of some numbers among {@link #each}. */
  int place(List<Integer> shown) {
    int place = 0;
    for (int figure : shown) {
      place = place * figures.size() + figures.indexOf(figure);
    }
    return place;
  }
}
