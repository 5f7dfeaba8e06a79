package dev.doublet.page;

import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The page of a layout: its signals along their chains, lit by the C reader, compiled to
 * WebAssembly, out of the same tables that controllers get. One file that asks nothing of a
 * network.
 */
public final class LayoutPage {
  /** What the page is made of, in the order in which it stands there. */
  private static final List<String> SCRIPTS =
      List.of(
          "screen.js",
          "reader.js",
          "layout.js",
          "signals.js",
          "time.js",
          "throttle.js",
          "test-in-c.js",
          "chosen.js",
          "failures.js",
          "other-table.js",
          "begin.js");

  private static final Pattern INDENTS = Pattern.compile("(?m)^\\s*(//.*)?\\n?");

  private static final Pattern PLACES = Pattern.compile("\\{(title|book|edition)}");

  /** Who a page hears by itself: nobody, or where it was served. */
  private static final String ALONE = "";

  private static final String SERVED = " connect-src 'self';";

  private LayoutPage() {}

  /**
   * The page.
   *
   * @param tables the bytes of each controller's table, by the controller's name
   */
  public static String html(Layout layout, Map<String, byte[]> tables) {
    return html(layout, tables, ALONE, "", "");
  }

  /**
   * The page as it is served: it follows the events of where it comes from.
   *
   * @param tables the bytes of each controller's table, by the controller's name
   * @param version grows with every page that is served in the place of another
   */
  public static String live(Layout layout, Map<String, byte[]> tables, int version) {
    String panel = text("live.html").replace("{version}", Integer.toString(version));
    return html(layout, tables, SERVED, panel, text("live.js"));
  }

  private static String html(
      Layout layout, Map<String, byte[]> tables, String hears, String panel, String more) {
    StringBuilder page = new StringBuilder();
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    page.append("<meta name=\"viewport\" content=\"width=device-width\">\n");
    page.append("<meta name=\"generator\" content=\"Doublet page of a layout\">\n");
    page.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    page.append(hears)
        .append(" script-src 'unsafe-inline' 'wasm-unsafe-eval'; style-src 'unsafe-inline'\">\n");
    page.append("<title>Signals of ")
        .append(Xml.text(layout.title()))
        .append("</title>\n<style>\n");
    page.append(text("layout.css")).append(PictureDrawing.css()).append("</style>\n</head>\n");
    Map<String, String> words =
        Map.of(
            "title", Xml.text(layout.title()),
            "book", Xml.text(layout.rulebook().title()),
            "edition", Integer.toString(layout.rulebook().edition()));
    // All at once: a name may look like a place for another.
    page.append(
        PLACES
            .matcher(text("layout.html").replace("{live}\n", panel))
            .replaceAll(place -> Matcher.quoteReplacement(words.get(place.group(1)))));
    List<Signal.Build> builds = LayoutData.builds(layout);
    for (int i = 0; i < builds.size(); i++) {
      page.append("<template id=\"build").append(i).append("\">");
      page.append(PictureDrawing.live(builds.get(i))).append("</template>\n");
    }
    data(page, "layout", LayoutData.of(layout, tables));
    data(page, "reader", '"' + Base64.getEncoder().encodeToString(bytes("reader.wasm")) + '"');
    page.append("<script>\n'use strict';\n");
    SCRIPTS.forEach(script -> page.append(plain(text(script))));
    return page.append(plain(more)).append("</script>\n</body>\n</html>\n").toString();
  }

  /** A script without its comments and indents, which none of its texts goes on into. */
  private static String plain(String script) {
    return INDENTS.matcher(script).replaceAll("");
  }

  private static void data(StringBuilder page, String id, String json) {
    page.append("<script type=\"application/json\" id=\"").append(id).append("\">");
    page.append(json).append("</script>\n");
  }

  private static String text(String name) {
    return new String(bytes(name), StandardCharsets.UTF_8);
  }

  private static byte[] bytes(String name) {
    try (InputStream in = LayoutPage.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(name + " is missing from this jar");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
