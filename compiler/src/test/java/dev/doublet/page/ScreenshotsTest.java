package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Image;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Pages look as they did when somebody last looked at them: screenshots at three sizes and in both
 * themes, made eight times smaller so that a browser's other edges of letters do not count, and the
 * pictures of the README. {@code -Ddoublet.update=true} takes them anew; then look at them.
 */
@Tag("slow")
class ScreenshotsTest {
  private static final Path KEPT = Path.of("src/test/resources/screenshots");
  private static final Path README = Path.of("../rulebooks/pictures");
  private static final int SMALLER = 8;

  /** Of 255: the mean over all channels of all points, and of the worst block of 8 by 8 of them. */
  private static final double MEAN = 2;

  private static final double WORST = 40;

  /** What the README shows of the page of a layout: a signal chosen, some aspects called up. */
  private static final String CALLED =
      """
      const call = (name, aspect) => {
        choose(signals.find(s => s.data.name === name));
        const unit = chosen.units[0];
        unit.buttons[unit.kind.states.findIndex(s => s.name === aspect)].click();
      };
      call('J2', 'Clear'); call('J3', 'Approach Limited'); call('J4', 'Restricting');
      call('H1', 'Approach'); call('H3', 'Clear'); call('H4', 'Medium Clear');
      call('B2', 'Clear'); call('B3', 'Approach'); call('J3', 'Approach Limited');
      goOn(2000);
      at('failed').value = '1';
      at('failed').dispatchEvent(new Event('change'));
      document.activeElement.blur();
      """;

  @TempDir private Path folder;

  @Test
  void pages_look_as_they_did() throws Exception {
    Browser.assumeInstalled();
    Path layout =
        Files.writeString(
            folder.resolve("layout.html"), Pages.html(Pages.built(Pages.DEMO, Pages::fromProject)));
    Path chart =
        Files.writeString(
            folder.resolve("chart.html"),
            AspectChartInBrowserTest.chart("rulebooks/brackwater.aspects", Pages::fromProject));
    for (Map.Entry<String, Path> page :
        new LinkedHashMap<>(Map.of("layout", layout, "chart", chart)).entrySet()) {
      List<Map<String, ?>> pictures = new ArrayList<>();
      for (String theme : List.of("light", "dark")) {
        for (int width : List.of(1280, 820, 390)) {
          pictures.add(picture(page.getKey() + "-" + theme + "-" + width, width, 900, theme, ""));
        }
      }
      boolean alive = page.getKey().equals("layout");
      pictures.add(
          picture(alive ? "page" : "chart", 1100, alive ? 760 : 560, "light", alive ? CALLED : ""));
      Browser.look("shoot", page.getValue(), Map.of("pictures", pictures));
    }
    List<String> different = new ArrayList<>();
    for (String name : names()) {
      boolean shown = name.equals("page") || name.equals("chart");
      Path kept = (shown ? README : KEPT).resolve(name + ".png");
      BufferedImage seen = ImageIO.read(folder.resolve(name + ".png").toFile());
      if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
        Files.createDirectories(kept.getParent());
        ImageIO.write(shown ? seen : smaller(seen), "png", kept.toFile());
      }
      BufferedImage before = ImageIO.read(kept.toFile());
      String difference = difference(shown ? smaller(before) : before, smaller(seen));
      if (!difference.isEmpty()) {
        different.add(name + ": " + difference);
      }
    }
    assertThat(different).isEmpty();
  }

  private static List<String> names() {
    List<String> names = new ArrayList<>(List.of("page", "chart"));
    for (String page : List.of("layout", "chart")) {
      for (String theme : List.of("light", "dark")) {
        List.of(1280, 820, 390).forEach(width -> names.add(page + "-" + theme + "-" + width));
      }
    }
    return names;
  }

  private Map<String, ?> picture(String name, int width, int height, String theme, String script) {
    String to = folder.resolve(name + ".png").toAbsolutePath().toString();
    return Map.of("to", to, "width", width, "height", height, "theme", theme, "script", script);
  }

  private static BufferedImage smaller(BufferedImage image) {
    int width = image.getWidth() / SMALLER;
    int height = image.getHeight() / SMALLER;
    BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Image scaled = image.getScaledInstance(width, height, Image.SCALE_AREA_AVERAGING);
    small.getGraphics().drawImage(scaled, 0, 0, null);
    return small;
  }

  /** How two small pictures differ, in words; empty when they are alike. */
  private static String difference(BufferedImage one, BufferedImage other) throws IOException {
    if (one.getWidth() != other.getWidth() || one.getHeight() != other.getHeight()) {
      return "another size";
    }
    double all = 0;
    double worst = 0;
    Map<Integer, double[]> blocks = new LinkedHashMap<>();
    for (int y = 0; y < one.getHeight(); y++) {
      for (int x = 0; x < one.getWidth(); x++) {
        double far = far(one.getRGB(x, y), other.getRGB(x, y));
        all += far;
        double[] block =
            blocks.computeIfAbsent(y / SMALLER * one.getWidth() + x / SMALLER, k -> new double[2]);
        block[0] += far;
        block[1]++;
      }
    }
    for (double[] block : blocks.values()) {
      worst = Math.max(worst, block[0] / block[1]);
    }
    double mean = all / one.getWidth() / one.getHeight();
    return mean <= MEAN && worst <= WORST ? "" : "mean " + mean + ", worst block " + worst;
  }

  private static double far(int one, int other) {
    double sum = 0;
    for (int shift = 0; shift < 24; shift += 8) {
      sum += Math.abs((one >> shift & 0xFF) - (other >> shift & 0xFF));
    }
    return sum / 3;
  }
}
