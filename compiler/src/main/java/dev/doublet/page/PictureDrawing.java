package dev.doublet.page;

import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Mount;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A picture as SVG: the heads of a signal seen from the front, one hundredth of a metre a unit.
 * Lenses and the spacing of lamps are in true proportion: 8 3/8 in for high signals and 6 3/8 in
 * for dwarfs (AREMA C&amp;S Manual, part 7.1.1), 300 mm from lamp to lamp (a choice of ours). Heads
 * stand closer together than on a full-size mast, so that a picture stays small; that, and the
 * shape of heads, masts and plates, is our own drawing and follows no rulebook's. Numbers behind
 * masks light up in one window, as a crew sees them, wherever their lamps are built in.
 */
final class PictureDrawing {
  private static final double INCH = 2.54;
  private static final double HIGH_LENS = 8.375 * INCH / 2;
  private static final double DWARF_LENS = 6.375 * INCH / 2;
  private static final double SPACING = 30;

  /** Half of a window behind which numbers light up: as wide as three digits. */
  private static final double WINDOW = 14;

  private static final double RIM = 6;
  private static final double BETWEEN = 6;
  private static final double MAST = 34;
  private static final double LETTER = 6.4;
  private static final double PLATE = 14;

  /** What is longer than a plate would carry is said whole beside the picture. */
  private static final int LETTERS = 14;

  private final Inks inks;
  private final Flashing flashing;
  private final Stock stock;
  private final List<Integer> leds;
  private final StringBuilder out = new StringBuilder();

  private PictureDrawing(Inks inks, Flashing flashing, Stock stock, List<Integer> leds) {
    this.inks = inks;
    this.flashing = flashing;
    this.stock = stock;
    this.leds = leds;
  }

  /** Heads that a page draws once and shows in many pictures; a picture of its own keeps none. */
  static final class Stock {
    private final Map<String, String> names = new LinkedHashMap<>();

    /** The name under which a head is kept. */
    private String keep(String drawing) {
      String name = names.get(drawing);
      if (name == null) {
        name = "head" + names.size();
        names.put(drawing, name);
      }
      return name;
    }

    /** All heads that were kept, to be put somewhere on the page. */
    String drawn() {
      StringBuilder all = new StringBuilder("<svg class=\"picture\" width=\"0\" height=\"0\"");
      all.append(" aria-hidden=\"true\" style=\"position:absolute\"><defs>");
      names.forEach(
          (drawing, name) ->
              all.append("<g id=\"").append(name).append("\">").append(drawing).append("</g>"));
      return all.append("</defs></svg>").toString();
    }
  }

  /** The style that all pictures of a page share. */
  static String css(Flashing flashing) {
    return css() + flashing.css();
  }

  /**
   * The same where a script lights the lamps. Heads are drawn once and used often, and to what is
   * used no rule reaches that names what is around it.
   */
  static String css() {
    return """
        .body{fill:#17191c;stroke:#6b7280;stroke-width:1}
        .dark{fill:#31363c;stroke:#565d66;stroke-width:.8}
        .ring{fill:none;stroke:#e5e7eb;stroke-width:1.2;stroke-dasharray:4 3}
        .mast{stroke:#6b7280;stroke-width:4;fill:none}
        .plate{fill:#fff;stroke:#17191c}
        .carried text{font:10px system-ui,sans-serif;fill:#17191c;text-anchor:middle}
        .numeral{font:bold 18px system-ui,sans-serif;text-anchor:middle}
        """;
  }

  /** A picture as part of a page, which says beside it in words what it shows. */
  static String inPage(SignalPicture shown, Inks inks, Flashing flashing, Stock stock) {
    return new PictureDrawing(inks, flashing, stock, List.of())
        .draw(shown, "class=\"picture\" aria-hidden=\"true\"", "");
  }

  /** A picture as a file of its own. */
  static String alone(SignalPicture shown, Inks inks, Flashing flashing) {
    String told = "<title>" + Xml.text(shown.describe()) + "</title>";
    String style = "<style>" + css(flashing) + "</style>";
    return new PictureDrawing(inks, flashing, null, List.of())
            .draw(
                shown,
                "xmlns=\"http://www.w3.org/2000/svg\" class=\"picture\" role=\"img\"",
                told + style)
        + "\n";
  }

  /**
   * A signal whose lamps a script lights: each is marked with its LED, counted from 0 along the
   * signal's part of the chain, and each plate with its name.
   */
  static String live(Signal.Build build) {
    List<Integer> leds = new ArrayList<>(Collections.nCopies(build.heads().size(), 0));
    int led = 0;
    for (int place : build.wired()) {
      leds.set(place, led);
      led += build.heads().get(place).lamps().size();
    }
    List<Optional<HeadType>> heads = build.heads().stream().map(Optional::of).toList();
    List<Display> dark = Collections.nCopies(heads.size(), Display.DARK);
    return new PictureDrawing(null, null, null, leds)
        .draw(
            new SignalPicture(build.form(), build.plates(), heads, dark, ""),
            "class=\"picture\" aria-hidden=\"true\"",
            "");
  }

  private String draw(SignalPicture shown, String attributes, String told) {
    boolean dwarf = shown.form().mount() == Mount.DWARF;
    double lens = dwarf ? DWARF_LENS : HIGH_LENS;
    List<Box> boxes = new ArrayList<>();
    for (int i = 0; i < shown.heads().size(); i++) {
      boxes.add(Box.of(shown.heads().get(i), shown.displays().get(i), lens));
    }
    double widest = boxes.stream().mapToDouble(Box::width).max().orElse(0);
    boolean aside = shown.form().mount() == Mount.STAGGERED && boxes.size() > 1;
    double half = Math.max(aside ? widest + 4 : widest / 2, platesWidth(shown) / 2) + 3;
    double left = shown.form().mount() == Mount.BRACKET ? half + 18 : half;
    double middle = left;
    double mastTop = 3;
    double y = 3;
    StringBuilder heads = new StringBuilder();
    for (int i = 0; i < boxes.size(); i++) {
      Box box = boxes.get(i);
      double x = aside ? middle + (i % 2 == 0 ? -1 : 1) * (box.width() / 2 + 3) : middle;
      heads.append(
          leds.isEmpty()
              ? placed(box, x, y + box.height() / 2, shown.displays().get(i), shown.heads().get(i))
              : live(box, x, y + box.height() / 2, leds.get(i), i));
      y += box.height() + BETWEEN;
    }
    y -= BETWEEN;
    double bottom = stand(shown.form().mount(), middle, mastTop, y, widest);
    StringBuilder plates = new StringBuilder();
    double plateAt = y + (dwarf ? 2 : 4);
    for (String plate : shown.plates()) {
      plates.append(plate(plate, middle, plateAt));
      plateAt += PLATE + 2;
    }
    bottom = Math.max(bottom, plateAt + (shown.plates().isEmpty() ? 0 : 2));
    String size = Xml.number(middle + half) + " " + Xml.number(bottom);
    return "<svg "
        + attributes
        + " viewBox=\"0 0 "
        + size
        + "\" width=\""
        + Xml.number(middle + half)
        + "\" height=\""
        + Xml.number(bottom)
        + "\">"
        + told
        + out
        + heads
        + plates
        + "</svg>";
  }

  /** Draws what holds the heads up, and returns how far down it reaches. */
  private double stand(Mount mount, double x, double top, double y, double widest) {
    switch (mount) {
      case DWARF -> {
        out.append("<path class=\"mast\" d=\"M");
        out.append(Xml.number(x - widest / 2)).append(' ').append(Xml.number(y + 2));
        out.append("h").append(Xml.number(widest)).append("\"/>");
        return y + 5;
      }
      case BRACKET -> {
        double mast = x - widest / 2 - 14;
        line(x, top, x, y + 8);
        line(x, y + 8, mast, y + 8);
        line(mast, y + 6, mast, y + MAST);
      }
      case IN_LINE, STAGGERED -> line(x, top, x, y + MAST);
    }
    return y + MAST + 2;
  }

  private void line(double x1, double y1, double x2, double y2) {
    out.append("<path class=\"mast\" d=\"M");
    out.append(Xml.number(x1)).append(' ').append(Xml.number(y1)).append('L');
    out.append(Xml.number(x2)).append(' ').append(Xml.number(y2)).append("\"/>");
  }

  private String placed(Box box, double x, double y, Display display, Optional<HeadType> make) {
    if (stock == null) {
      return head(box, x, y, display, make);
    }
    return "<use href=\"#"
        + stock.keep(head(box, 0, 0, display, make))
        + "\" x=\""
        + Xml.number(x)
        + "\" y=\""
        + Xml.number(y)
        + "\"/>";
  }

  private static String body(Box box, double x, double y, String more) {
    if (box.arm() >= 0) {
      return ArmDrawing.bar(box.arm(), x, y, more);
    }
    return "<rect class=\"body\" x=\""
        + Xml.number(x - box.width() / 2)
        + "\" y=\""
        + Xml.number(y - box.height() / 2)
        + "\" width=\""
        + Xml.number(box.width())
        + "\" height=\""
        + Xml.number(box.height())
        + "\" rx=\""
        + Xml.number(box.numbers().isEmpty() ? box.lens() + RIM : RIM)
        + "\"/>";
  }

  private static String live(Box box, double x, double y, int firstLed, int place) {
    StringBuilder head = new StringBuilder(body(box, x, y, " data-arm=\"" + place + "\""));
    for (int i = 0; i < box.numbers().size(); i++) {
      String led = " data-led=\"" + (firstLed + i) + "\"";
      head.append(numeral("lamp", x, y, led, box.numbers().get(i)));
      head.append(window(x, y, " hidden=\"\"" + led));
    }
    for (int i = 0; i < box.places().lamps().size(); i++) {
      double lampX = x + box.places().lamps().get(i).right() * SPACING;
      double lampY = y + box.places().lamps().get(i).down() * SPACING;
      String led = " data-led=\"" + (firstLed + i) + "\"";
      head.append(circle("dark", lampX, lampY, box.lens(), ""));
      head.append(circle("lamp", lampX, lampY, box.lens(), led));
      head.append(circle("ring", lampX, lampY, box.lens() + 2.5, " hidden=\"\"" + led));
    }
    return head.toString();
  }

  private String head(Box box, double x, double y, Display display, Optional<HeadType> make) {
    StringBuilder head = new StringBuilder(body(box, x, y, ""));
    List<Lit> lit = make.flatMap(m -> m.lights(display.look())).orElse(List.of());
    if (!box.numbers().isEmpty()) {
      lit.forEach(one -> head.append(number(one, box.numbers(), display.rhythm(), x, y)));
      return head.toString();
    }
    for (int i = 0; i < box.places().lamps().size(); i++) {
      double lampX = x + box.places().lamps().get(i).right() * SPACING;
      double lampY = y + box.places().lamps().get(i).down() * SPACING;
      head.append(circle("dark", lampX, lampY, box.lens(), ""));
      for (Lit one : lit) {
        if (one.lamp() == i) {
          head.append(lamp(one.colour(), one.shown(display).rhythm(), lampX, lampY, box.lens()));
        }
      }
    }
    return head.toString();
  }

  private String lamp(String colour, String rhythm, double x, double y, double lens) {
    String drawn = circle(lit(rhythm), x, y, lens, fill(colour));
    return rhythm.isEmpty() ? drawn : drawn + circle("ring", x, y, lens + 2.5, "");
  }

  private String number(Lit one, List<String> numbers, String rhythm, double x, double y) {
    String drawn = numeral(lit(rhythm), x, y, fill(one.colour()), numbers.get(one.lamp()));
    return rhythm.isEmpty() ? drawn : drawn + window(x, y, "");
  }

  private String lit(String rhythm) {
    String flash = flashing.cssClass(rhythm);
    return flash.isEmpty() ? "lit" : "lit " + flash;
  }

  private String fill(String colour) {
    String ink = inks.of(colour).map(known -> known.screen().hex()).orElse("#9ca3af");
    return " fill=\"" + ink + "\"";
  }

  private static String numeral(String cssClass, double x, double y, String more, String number) {
    String place = "\" x=\"" + Xml.number(x) + "\" y=\"" + Xml.number(y + 6.5) + "\"";
    return "<text class=\"numeral " + cssClass + place + more + ">" + Xml.text(number) + "</text>";
  }

  /** The broken ring of a number that flashes. */
  private static String window(double x, double y, String more) {
    String size = Xml.number(2 * (WINDOW + 3));
    return "<rect class=\"ring\" x=\""
        + Xml.number(x - WINDOW - 3)
        + "\" y=\""
        + Xml.number(y - WINDOW - 3)
        + "\" width=\""
        + size
        + "\" height=\""
        + size
        + "\" rx=\"4\""
        + more
        + "/>";
  }

  private static String circle(String cssClass, double x, double y, double radius, String more) {
    return "<circle class=\""
        + cssClass
        + "\" cx=\""
        + Xml.number(x)
        + "\" cy=\""
        + Xml.number(y)
        + "\" r=\""
        + Xml.number(radius)
        + "\""
        + more
        + "/>";
  }

  private static String plate(String name, double x, double y) {
    double width = width(name);
    return "<g class=\"carried\" data-plate=\""
        + Xml.text(name)
        + "\"><rect class=\"plate\" x=\""
        + Xml.number(x - width / 2)
        + "\" y=\""
        + Xml.number(y)
        + "\" width=\""
        + Xml.number(width)
        + "\" height=\""
        + Xml.number(PLATE)
        + "\" rx=\"1\"/><text x=\""
        + Xml.number(x)
        + "\" y=\""
        + Xml.number(y + 10.5)
        + "\">"
        + Xml.text(Visible.brief(name, LETTERS))
        + "</text></g>";
  }

  private static double width(String plate) {
    return Math.min(LETTERS, plate.codePointCount(0, plate.length())) * LETTER + 8;
  }

  private static double platesWidth(SignalPicture shown) {
    return shown.plates().stream().mapToDouble(PictureDrawing::width).max().orElse(0);
  }

  /**
   * The outside of a head.
   *
   * @param places of its lamps, but of those that are numbers
   * @param numbers those that light up in its one window; empty for lamps
   * @param arm how many degrees an arm is above the level; negative for lamps
   */
  private record Box(LampPlaces places, List<String> numbers, double lens, int arm) {
    static Box of(Optional<HeadType> make, Display display, double lens) {
      if (make.isPresent() && make.get().isOfNumbers()) {
        List<String> numbers = make.get().lamps().stream().map(Lamp::name).toList();
        return new Box(new LampPlaces(List.of()), numbers, WINDOW, -1);
      }
      LampPlaces places =
          make.map(LampPlaces::of).orElse(new LampPlaces(List.of(new LampPlaces.Place(0, 0))));
      int arm = make.filter(HeadType::isArm).map(m -> ArmDrawing.degrees(m, display)).orElse(-1);
      return new Box(places, List.of(), lens, arm);
    }

    double width() {
      return arm >= 0 ? 2 * ArmDrawing.REACH : places.width() * SPACING + 2 * (lens + RIM);
    }

    double height() {
      return arm >= 0 ? 2 * ArmDrawing.REACH : places.height() * SPACING + 2 * (lens + RIM);
    }
  }
}
