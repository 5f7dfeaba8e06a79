package dev.doublet.editor;

import dev.doublet.check.Checks;
import dev.doublet.layout.read.KeyGuide;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Numerals;
import dev.doublet.rulebook.Pattern;
import dev.doublet.source.Mention;
import dev.doublet.source.Mention.Kind;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.syntax.Ahead;
import dev.doublet.syntax.YamlCursor;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** What may be written at the cursor, each with what it means. */
public final class Completion {
  /** What the list of layout keys calls the names of each kind. */
  private static final Map<String, Kind> IN_LAYOUTS =
      Map.of(
          "the name of a bus", Kind.BUS,
          "the name of an aspect", Kind.ASPECT,
          "the name of a head", Kind.HEAD,
          "the name of a form", Kind.FORM,
          "the name of a plate", Kind.PLATE,
          "the name of a kind", Kind.KIND,
          "the name of a kind of LED", Kind.LED,
          "the name of a kind of chip", Kind.CHIP,
          "the name of a supply", Kind.SUPPLY);

  private final Root root;
  private final Meanings meanings;
  private final List<Proposal> proposals = new ArrayList<>();
  private final Span place;

  private Completion(Root root, Span place) {
    this.root = root;
    this.meanings = new Meanings(root);
    this.place = place;
  }

  /**
   * What may be written at a place.
   *
   * @param root what the file was last read as part of: its names are proposed
   * @param file as it is now, however broken
   * @param offset where the cursor stands
   */
  public static List<Proposal> at(Root root, SourceFile file, int offset) {
    if (isInComment(file, offset)) {
      return List.of();
    }
    if (LayoutResolver.isLayout(file.name())) {
      YamlCursor cursor = YamlCursor.at(file, offset);
      int start = Math.min(cursor.start(), offset);
      Completion completion = new Completion(root, place(file, start, offset));
      completion.layout(cursor);
      return List.copyOf(completion.proposals);
    }
    int start = startOfWord(file.text(), offset);
    Completion completion = new Completion(root, place(file, start, offset));
    completion.book(Ahead.at(file, start));
    return List.copyOf(completion.proposals);
  }

  /** What is written so far, with the closing mark that editors write along with an opening one. */
  private static Span place(SourceFile file, int start, int offset) {
    String text = file.text();
    boolean quoted = start < offset && (text.charAt(start) == '"' || text.charAt(start) == '\'');
    boolean closed = quoted && offset < text.length() && text.charAt(offset) == text.charAt(start);
    return file.span(start, closed ? offset + 1 : offset);
  }

  /** True behind a # that no quotation marks hold; in a layout it begins a word. */
  private static boolean isInComment(SourceFile file, int offset) {
    boolean layout = LayoutResolver.isLayout(file.name());
    String line = file.text().substring(file.text().lastIndexOf('\n', offset - 1) + 1, offset);
    char quote = ' ';
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      boolean first = i == 0 || Character.isWhitespace(line.charAt(i - 1));
      if (quote != ' ') {
        quote = c == quote ? ' ' : quote;
      } else if (c == '"' || c == '\'' && layout) {
        quote = c;
      } else if (c == '#' && (first || !layout)) {
        return true;
      }
    }
    return false;
  }

  private static int startOfWord(String text, int offset) {
    int line = text.lastIndexOf('\n', offset - 1) + 1;
    int quote = -1;
    for (int i = line; i < offset; i++) {
      if (text.charAt(i) == '"') {
        quote = quote < 0 ? i : -1;
      }
    }
    if (quote >= 0) {
      return quote;
    }
    int start = offset;
    while (start > line && isOfName(text.charAt(start - 1))) {
      start--;
    }
    return start;
  }

  private static boolean isOfName(char c) {
    return Character.isLetterOrDigit(c) || c == '-' || c == '_' || c == '/';
  }

  private void layout(YamlCursor cursor) {
    KeyGuide guide = KeyGuide.at(cursor);
    if (!cursor.value()) {
      for (KeyGuide.Hint key : guide.keys()) {
        add(key.name() + ": ", Proposal.Sort.KEY, key.help() + " Takes " + key.takes() + ".");
      }
    }
    guide.words().forEach(word -> add(word, Proposal.Sort.WORD, ""));
    for (String names : guide.names()) {
      if (IN_LAYOUTS.containsKey(names)) {
        names(IN_LAYOUTS.get(names), false);
      } else if (names.equals("the name of a check")) {
        checks();
      }
    }
  }

  private void book(Ahead ahead) {
    names(ahead);
    for (String word : ahead.words()) {
      add(word, Proposal.Sort.WORD, WordHelp.of(word));
    }
  }

  private void names(Ahead ahead) {
    List<String> before = ahead.before();
    boolean reason = !before.isEmpty() && before.get(before.size() - 1).equals("because");
    if (!ahead.text().isEmpty()
        && !reason
        && !ahead
            .text()
            .get(0)
            .matches("bookLine|use|aspect|was|reference|indicates|plate|cover")) {
      names(Kind.ASPECT, true);
    }
    if (ahead.name().isEmpty()) {
      return;
    }
    Set<String> rules = new LinkedHashSet<>(ahead.name());
    if (rules.contains("numeral")) {
      letters(before, false);
    } else if (rules.contains("display")) {
      if (rules.contains("meaning") || rules.contains("likeness")) {
        patterns();
      }
      names(Kind.COLOUR, false);
      names(Kind.FIGURE, false);
      names(Kind.RHYTHM, false);
      letters(before, true);
    } else if (rules.contains("proviso")) {
      names(Kind.COLOUR, false);
      names(Kind.FIGURE, false);
    } else if (rules.contains("movement")) {
      names(Kind.SPEED, false);
      letters(before, true);
    } else if (rules.contains("with")
        || rules.contains("likeness") && last(before, "with", "on").equals("with")) {
      names(Kind.PLATE, false);
    } else if (rules.contains("shows") || rules.contains("meaning") || rules.contains("likeness")) {
      names(Kind.FORM, false);
    } else if (rules.contains("cover") || rules.contains("grave") || rules.contains("acceptance")) {
      remarks(rules, before);
    } else if (rules.contains("lit") && rules.contains("name")) {
      lamps(before);
      names(Kind.RHYTHM, false);
    } else if (rules.contains("make")
        || rules.contains("lamps") && !rules.contains("names")
        || rules.contains("position") && before.contains("in")
        || rules.contains("lit")) {
      names(Kind.COLOUR, false);
    }
  }

  /** The letters of the aspect that is being written; in an expectation, of any. */
  private void letters(List<String> before, boolean braces) {
    Set<String> letters = new TreeSet<>();
    if (before.get(0).equals("aspect")) {
      letters.addAll(Numerals.lettersOf(before.get(1)));
    } else {
      root.names().all().stream()
          .filter(name -> name.kind() == Kind.LETTER)
          .forEach(name -> letters.add(name.name()));
    }
    for (String letter : letters) {
      String text = braces ? "{" + letter + "}" : letter;
      add(text, Proposal.Sort.NAME, meanings.brief(Kind.LETTER, letter));
    }
  }

  /** What is said of faults and findings. */
  private void remarks(Set<String> rules, List<String> before) {
    if (before.contains("on")) {
      names(Kind.FORM, false);
    } else if (!rules.contains("acceptance")) {
      for (Fault fault : Fault.values()) {
        add(fault.words(), Proposal.Sort.WORD, "");
      }
    } else if (before.contains("of")) {
      names(Kind.RHYTHM, false);
    } else {
      checks();
    }
  }

  private void checks() {
    Checks.all().stream().map(c -> c.name()).sorted().forEach(n -> add(n, Proposal.Sort.NAME, ""));
  }

  /** The lamps of the head that is being written. */
  private void lamps(List<String> before) {
    Set<String> lamps = new TreeSet<>();
    for (int i = 0; i < before.size(); i++) {
      if (before.get(i).equals("lamp")) {
        for (int j = i + 1; j < before.size() && !before.get(j).equals("shows"); j++) {
          lamps.add(before.get(j));
        }
      }
    }
    lamps.remove(",");
    lamps.forEach(lamp -> add(lamp, Proposal.Sort.NAME, "a lamp of this head"));
  }

  private static String last(List<String> words, String one, String other) {
    return words.lastIndexOf(one) > words.lastIndexOf(other) ? one : other;
  }

  private void names(Kind kind, boolean quoted) {
    Set<String> declared = new TreeSet<>();
    for (Mention name : root.names().all()) {
      if (name.kind() == kind && name.declares()) {
        declared.add(name.name());
      }
    }
    for (String name : declared) {
      String text = quoted ? '"' + name + '"' : NameText.at(place, name);
      add(text, Proposal.Sort.NAME, meanings.brief(kind, name));
    }
  }

  /** Every pattern of the book, with the aspects that it shows. */
  private void patterns() {
    root.book()
        .ifPresent(
            book ->
                book.aspects()
                    .forEach(
                        aspect -> {
                          for (Pattern pattern : aspect.patterns()) {
                            Form form = pattern.form();
                            add(
                                pattern.words(),
                                Proposal.Sort.PATTERN,
                                aspect.name() + " on " + form.name());
                          }
                        }));
  }

  private void add(String text, Proposal.Sort sort, String meaning) {
    Proposal proposal = new Proposal(text, sort, meaning, place);
    if (!proposals.contains(proposal)) {
      proposals.add(proposal);
    }
  }
}
