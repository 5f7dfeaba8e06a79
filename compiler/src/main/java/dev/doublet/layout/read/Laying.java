package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Lay;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

/** How a cable lies, from what its signals and boards say one after another. */
final class Laying {
  private final Complaints complaints;
  private final List<Lay.Lead> leads = new ArrayList<>();
  private final List<Lay.Board> boards = new ArrayList<>();

  /** Where each board is said. */
  private final List<Span> spans = new ArrayList<>();

  /** Metres from the cable's start, by the LED from which on, from 0. */
  private final TreeMap<Integer, Double> places = new TreeMap<>();

  private boolean said;
  private boolean misread;

  /** True when some signal is not known. */
  private boolean lost;

  private boolean onBoard;
  private double metres;

  Laying(Complaints complaints) {
    this.complaints = complaints;
  }

  /** True when something is said of how the cable lies. */
  boolean isSaid() {
    return said;
  }

  /** A board that stands on the cable, before a LED. */
  void board(Section board, int led) {
    goOn(board, led);
    said = true;
    Optional<String> name = board.read(Keys.SOCKET_BOARD).map(YamlNode.Scalar::text);
    Optional<Integer> sockets = board.read(Keys.SOCKETS);
    onBoard = name.isPresent() && sockets.isPresent();
    if (onBoard) {
      boards.add(new Lay.Board(name.get(), sockets.get(), metres, List.of()));
      spans.add(board.span());
    }
  }

  /** A signal that could not be read. */
  void lose() {
    lost = true;
  }

  /** A signal at the next place, or at the same one. */
  void signal(Section own, Walk.Placed signal) {
    if (own.ownSays(Keys.METRES_TO)) {
      onBoard = false;
    }
    goOn(own, signal.led());
    own.read(Keys.LEAD, Keys.WIRE)
        .flatMap(wire -> Powering.wire(wire, complaints))
        .ifPresent(wire -> leads.add(new Lay.Lead(signal.led(), signal.design().leds(), wire)));
    said |= own.ownSays(Keys.LEAD);
    if (onBoard) {
      plug(signal);
    }
  }

  private void goOn(Section own, int led) {
    if (own.ownSays(Keys.METRES_TO)) {
      said = true;
      Optional<Double> read = own.read(Keys.METRES_TO);
      misread |= read.isEmpty();
      metres += read.orElse(0.0);
    }
    places.put(led, metres);
  }

  private void plug(Walk.Placed signal) {
    Lay.Board board = boards.get(boards.size() - 1);
    List<String> plugged = new ArrayList<>(board.signals());
    plugged.add(signal.name());
    boards.set(
        boards.size() - 1, new Lay.Board(board.name(), board.sockets(), board.metres(), plugged));
    if (plugged.size() == board.sockets() + 1) {
      complaints.wrong(
          "wrong-count",
          signal.span(),
          "board {board} has {sockets}, and {signal} is one signal more",
          "put a board with more sockets there, or say the \"metres\" to the next place.",
          Datum.of("board", board.name()),
          Datum.count("sockets", board.sockets(), "socket"),
          Datum.of("signal", signal.name()));
    }
  }

  /**
   * A cable as it lies.
   *
   * @param key where the cable is said
   * @return the cable as it was when nothing is said of how it lies; empty for a mistake
   */
  Optional<Cable> laid(Cable cable, List<Lay.Feed> feeds, int leds, Span key) {
    if (misread) {
      return Optional.empty();
    }
    if (!said) {
      return cable.metres() == 0
          ? missing(key)
          : Optional.of(
              cable.lying(cable.metres(), new Lay(List.of(), List.of(), List.of(), feeds)));
    }
    if (cable.metres() > 0) {
      complaints.wrong(
          "contradiction",
          key,
          "how long this cable is follows from its signals, and is said too",
          "leave its \"metres\" out and say those of signals and boards, or leave out boards, leads and the metres of"
              + " signals.");
      return Optional.empty();
    }
    for (int i = 0; i < boards.size(); i++) {
      if (boards.get(i).signals().isEmpty() && !lost) {
        complaints.idleBoard(spans.get(i), boards.get(i).name());
      }
    }
    List<Double> at = new ArrayList<>();
    for (int led = 0; led < leds; led++) {
      at.add(places.headMap(led, true).isEmpty() ? 0 : places.floorEntry(led).getValue());
      if (led > 0 && at.get(led) < at.get(led - 1)) {
        complaints.wrong(
            "contradiction",
            key,
            "LED {led} comes before LED {next} on this cable",
            "list signals in the order of the cable where their \"metres\" are said.",
            Datum.of("led", (led + 1)),
            Datum.of("next", led));
        return Optional.empty();
      }
    }
    return metres == 0
        ? missing(key)
        : Optional.of(cable.lying(metres, new Lay(at, leads, boards, feeds)));
  }

  private Optional<Cable> missing(Span key) {
    complaints.missingKeys(key, "this cable", List.of(Keys.METRES));
    return Optional.empty();
  }
}
