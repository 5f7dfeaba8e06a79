package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** Reads which lamps of a signal are at outputs of chips. */
final class Outputs {
  private static final String UNUSED = "none";

  private final Section said;
  private final Signal.Build build;
  private final Chip chip;
  private final LampNames names;
  private final Complaints complaints;
  private final List<Feed> feeds = new ArrayList<>();
  private final Map<Integer, YamlNode.Scalar> fed = new HashMap<>();
  private boolean sound = true;

  private Outputs(Section said, Signal.Build build, Chip chip, Complaints complaints) {
    this.said = said;
    this.build = build;
    this.chip = chip;
    this.names = LampNames.of(build);
    this.complaints = complaints;
  }

  /**
   * What lights the lamps of a signal, in the order of the cable: chips as they are listed, each
   * where its first lamp would stand, or behind the chip before it.
   *
   * @param alone true when the signal's heads are commanded by themselves
   * @return no feeds when every lamp has an LED of its own; empty for a mistake, which has been
   *     complained of
   */
  static Optional<List<Feed>> read(
      Section said,
      Signal.Build build,
      Declared<Chip> chips,
      boolean alone,
      Complaints complaints) {
    if (!said.says(Keys.CHIP_OF)) {
      said.entry(Keys.OUTPUTS)
          .ifPresent(
              e ->
                  complaints.missingKey(
                      e.key().span(),
                      "these outputs are of no chip",
                      "add \"chip: \" with the name of a kind of chip."));
      return said.says(Keys.OUTPUTS) ? Optional.empty() : Optional.of(List.of());
    }
    Optional<Chip> chip = said.read(Keys.CHIP_OF).flatMap(name -> chips.find(name, complaints));
    return chip.flatMap(c -> new Outputs(said, build, c, complaints).feeds(alone));
  }

  private Optional<List<Feed>> feeds(boolean alone) {
    if (said.says(Keys.OUTPUTS)) {
      for (List<YamlNode.Scalar> outputs : said.read(Keys.OUTPUTS).orElse(List.of())) {
        chip(outputs);
      }
      sound &= said.read(Keys.OUTPUTS).isPresent();
    } else {
      eachHead();
    }
    if (!sound) {
      return Optional.empty();
    }
    refuseColours();
    if (alone) {
      refuseTwoHeads();
    }
    return sound ? Optional.of(alongCable(alone)) : Optional.empty();
  }

  /** Heads that are commanded by themselves keep their places together. */
  private List<Feed> alongCable(boolean alone) {
    List<Integer> heads = heads();
    int[] last = new int[build.heads().size()];
    Map<Integer, List<Feed>> places = new TreeMap<>();
    for (Feed chip : feeds) {
      int first = chip.lit().min(Integer::compare).orElseThrow();
      int head = alone ? heads.get(first) : 0;
      last[head] = Math.max(last[head], first);
      places.computeIfAbsent(last[head], p -> new ArrayList<>()).add(chip);
    }
    for (int lamp = 0; lamp < names.count(); lamp++) {
      int at = lamp;
      if (feeds.stream().noneMatch(f -> f.lamps().contains(at))) {
        places.put(lamp, List.of(Feed.led(lamp)));
      }
    }
    return places.values().stream().flatMap(List::stream).toList();
  }

  /** The place of the head that has each lamp. */
  private List<Integer> heads() {
    List<Integer> heads = new ArrayList<>();
    for (int place : build.wired()) {
      heads.addAll(Collections.nCopies(build.heads().get(place).lamps().size(), place));
    }
    return heads;
  }

  /** Unless it is said otherwise the lamps of each head fill one chip after the other. */
  private void eachHead() {
    int first = 0;
    for (int place : build.wired()) {
      int lamps = build.heads().get(place).lamps().size();
      for (int lamp = 0; lamp < lamps; lamp += chip.outputs().size()) {
        List<Integer> outputs = unused();
        for (int i = 0; i < outputs.size() && lamp + i < lamps; i++) {
          outputs.set(i, first + lamp + i);
        }
        feeds.add(new Feed(chip, outputs));
      }
      first += lamps;
    }
  }

  private List<Integer> unused() {
    return new ArrayList<>(Collections.nCopies(chip.outputs().size(), Feed.NONE));
  }

  private void chip(List<YamlNode.Scalar> listed) {
    if (listed.size() > chip.outputs().size()) {
      wrong(
          "wrong-count",
          listed.get(chip.outputs().size()),
          "chip \"{chip}\" has no output for this lamp",
          "begin another list for the next chip: each list is one chip, its lamps in the order of"
              + " its outputs ({outputs}).",
          Datum.of("chip", chip.name()),
          Datum.of("outputs", chip.outputs()));
      return;
    }
    List<Integer> outputs = unused();
    for (int i = 0; i < listed.size(); i++) {
      if (!listed.get(i).text().equals(UNUSED)) {
        outputs.set(i, lamp(listed.get(i)));
      }
    }
    if (outputs.stream().allMatch(lamp -> lamp == Feed.NONE) && sound) {
      wrong(
          "contradiction",
          listed.get(0),
          "no output of this chip lights a lamp of the signal",
          "name a lamp, or say a gap in the list of signals for a chip that lights nothing.");
    }
    feeds.add(new Feed(chip, outputs));
  }

  private int lamp(YamlNode.Scalar name) {
    List<Integer> lamps = names.named(name.text());
    if (lamps.isEmpty()) {
      sound = false;
      complaints.unknownName(name, "lamp of form " + build.form().name(), names.all());
      return Feed.NONE;
    }
    if (lamps.size() > 1) {
      wrong(
          "contradiction",
          name,
          "an output lights one lamp, and \"{name}\" are {lamps}",
          "name the place of the head and the lamp, as in \"top red\".",
          Datum.of("name", name.text()),
          Datum.of("lamps", lamps.size()));
      return Feed.NONE;
    }
    YamlNode.Scalar other = fed.putIfAbsent(lamps.get(0), name);
    if (other != null) {
      wrong(
          "contradiction",
          name,
          "lamp \"{lamp}\" is at another output already",
          "take it away from one of them.",
          Datum.of("lamp", name.text()));
    }
    return lamps.get(0);
  }

  private void wrong(String id, YamlNode.Scalar at, String message, String help, Datum... data) {
    sound = false;
    complaints.wrong(id, at.span(), message, help, data);
  }

  /** An ordinary LED has one colour. */
  private void refuseColours() {
    int lamp = 0;
    for (int place : build.wired()) {
      HeadType head = build.heads().get(place);
      for (Lamp one : head.lamps()) {
        int at = lamp++;
        boolean onChip = feeds.stream().anyMatch(f -> f.lamps().contains(at));
        if (onChip && one.colours().size() > 1) {
          sound = false;
          complaints.wrong(
              "contradiction",
              said.at(said.says(Keys.OUTPUTS) ? Keys.OUTPUTS : Keys.CHIP_OF),
              "lamp {lamp} of head {head} shows {colours} colours, and an output of a chip lights one",
              "leave the lamp out, so that it has an addressable LED of its own, or use a head"
                  + " with a lamp for each colour.",
              Datum.of("lamp", one.name()),
              Datum.of("head", head.name()),
              Datum.of("colours", one.colours().size()));
          return;
        }
      }
    }
  }

  private void refuseTwoHeads() {
    List<Integer> heads = heads();
    for (Feed feed : feeds) {
      if (feed.lit().map(heads::get).distinct().count() > 1 && sound) {
        sound = false;
        complaints.wrong(
            "contradiction",
            said.at(Keys.OUTPUTS),
            "a chip cannot light lamps of two heads that are commanded by themselves",
            "give each head chips of its own, or command the signal as a whole.");
      }
    }
  }
}
