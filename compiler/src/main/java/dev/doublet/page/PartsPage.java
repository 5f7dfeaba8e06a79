package dev.doublet.page;

import dev.doublet.chart.PartsList;
import dev.doublet.chart.PartsListText;

/** A list of parts as one page that needs nothing else, for A4 and Letter. */
public final class PartsPage {
  private PartsPage() {}

  /** The page. */
  public static String html(PartsList list) {
    StringBuilder page = new StringBuilder();
    ThrottleSheetPage.begin(page, "Parts", list.title(), ThrottleSheetPage.CSS);
    page.append("<p class=\"soft\">For model railways only.</p>\n");
    ThrottleSheetPage.table(page, PartsListText.heads(list), PartsListText.rows(list));
    list.notes().forEach(n -> page.append("<p>").append(Xml.text(n)).append("</p>\n"));
    return page.append("</main>\n</body>\n</html>\n").toString();
  }
}
