package dev.doublet.page;

import dev.doublet.diff.Sight;
import dev.doublet.rulebook.Rulebook;
import java.util.IdentityHashMap;
import java.util.Map;

/** What crews saw and see, drawn in the colours of the rulebook of the time. */
final class Gallery {
  private final Map<Rulebook, Room> rooms = new IdentityHashMap<>();
  private final PictureDrawing.Stock stock = new PictureDrawing.Stock();

  /** What the pictures of one version of a book share. */
  private record Room(Inks inks, Makes makes, Flashing flashing) {
    static Room of(Rulebook book) {
      return new Room(Inks.of(book), Makes.of(book), Flashing.of(book));
    }
  }

  private Room room(Sight sight) {
    return rooms.computeIfAbsent(sight.book(), Room::of);
  }

  /** As coloured discs: "🟡 🔴". */
  String discs(Sight sight) {
    Room room = room(sight);
    return Disc.of(SignalPicture.of(room.makes(), sight), room.inks());
  }

  /** As a drawing for a page, whose lamps stand still. */
  String picture(Sight sight) {
    Room room = room(sight);
    return PictureDrawing.inPage(
        SignalPicture.of(room.makes(), sight), room.inks(), room.flashing(), stock);
  }

  /** Heads that the pictures share, to be put somewhere on the page. */
  String drawn() {
    return stock.drawn();
  }
}
