package dev.doublet.rulebook;

import dev.doublet.source.Mention;
import dev.doublet.source.Mention.Kind;
import dev.doublet.source.Mentions;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Finds every place where a rulebook's names are written, in broken declarations too. */
final class NameWalk {
  private final List<Mention> found = new ArrayList<>();
  private final Set<String> colours = new HashSet<>();
  private final Set<String> figures = new HashSet<>();
  private final Set<String> letters = new HashSet<>();

  /** The declaration that is walked: what its letters are known in. */
  private String part = "";

  private NameWalk() {}

  /** The places of all names of some files. */
  static Mentions of(List<Tree> trees) {
    return new Mentions(() -> gather(trees));
  }

  private static List<Mention> gather(List<Tree> trees) {
    List<Tree.Declaration> all = new ArrayList<>();
    for (Tree tree : trees) {
      all.addAll(tree.declarations());
      tree.broken().forEach(b -> all.addAll(b.mended()));
    }
    NameWalk walk = new NameWalk();
    all.forEach(walk::learnLooks);
    all.forEach(walk::declaration);
    return walk.found;
  }

  /** Whether a display's word is a colour or a figure shows only in the whole book. */
  private void learnLooks(Tree.Declaration declaration) {
    if (declaration instanceof Tree.Colours block) {
      block.colours().forEach(c -> colours.add(c.name().text()));
    } else if (declaration instanceof Tree.Head head) {
      head.figures().forEach(f -> figures.add(f.name().text()));
      head.positions().forEach(p -> figures.add(p.name().text()));
    } else if (declaration instanceof Tree.Numbers numbers) {
      numbers.figures().forEach(n -> figures.add(n.text()));
    }
  }

  private void declaration(Tree.Declaration declaration) {
    part = declaration.span().file().name() + " " + declaration.span().start();
    if (declaration instanceof Tree.Numbers numbers) {
      numbers.figures().forEach(n -> declares(Kind.FIGURE, n));
    } else if (declaration instanceof Tree.Speeds block) {
      block.speeds().forEach(s -> declares(Kind.SPEED, s.name()));
    } else if (declaration instanceof Tree.Colours block) {
      block.colours().forEach(c -> declares(Kind.COLOUR, c.name()));
    } else if (declaration instanceof Tree.Rhythms block) {
      block.rhythms().forEach(r -> declares(Kind.RHYTHM, r.name()));
    } else if (declaration instanceof Tree.Head head) {
      head(head);
    } else if (declaration instanceof Tree.Form form) {
      declares(Kind.FORM, form.name());
      form.places().forEach(p -> add(Kind.PLACE, form.name().text(), p.name(), true));
    } else if (declaration instanceof Tree.Plates plates) {
      plates.names().forEach(p -> declares(Kind.PLATE, p));
      plates.changes().forEach(c -> List.of(c.from(), c.to()).forEach(this::movement));
    } else if (declaration instanceof Tree.Cover cover) {
      uses(Kind.FORM, cover.forms());
    } else if (declaration instanceof Tree.Imperfect imperfect) {
      for (Tree.Proviso proviso : imperfect.provisos()) {
        uses(Kind.ASPECT, List.of(proviso.aspect()));
        proviso.looks().forEach(this::look);
      }
    } else if (declaration instanceof Tree.Accept accept) {
      uses(Kind.ASPECT, accept.aspects());
      uses(Kind.RHYTHM, accept.names());
      uses(Kind.FORM, accept.forms());
    } else if (declaration instanceof Tree.Meaning meaning) {
      meaning.pictures().forEach(this::pattern);
      uses(Kind.FORM, meaning.forms());
      uses(Kind.PLATE, meaning.plates());
      expected(meaning.aspect());
    } else if (declaration instanceof Tree.Order order) {
      expected(List.of(order.first(), order.second()));
    } else if (declaration instanceof Tree.Precedence precedence) {
      expected(List.of(precedence.first(), precedence.second()));
    } else if (declaration instanceof Tree.Allowed allowed) {
      expected(List.of(allowed.aspect()));
      allows(allowed.allows());
    } else if (declaration instanceof Tree.Aspect aspect) {
      aspect(aspect);
    }
  }

  /** Aspects of one expectation, in which a letter stands for one number. */
  private void expected(List<Word> aspects) {
    uses(Kind.ASPECT, aspects);
    aspects.forEach(this::letters);
  }

  private void head(Tree.Head head) {
    declares(Kind.HEAD, head.name());
    uses(Kind.COLOUR, head.vanes());
    head.masks().forEach(m -> uses(Kind.COLOUR, List.of(m.colour())));
    head.lamps().forEach(l -> uses(Kind.COLOUR, l.colours()));
    for (Tree.Position position : head.positions()) {
      declares(Kind.FIGURE, position.name());
      uses(Kind.COLOUR, position.colour());
    }
    for (Tree.Figure figure : head.figures()) {
      declares(Kind.FIGURE, figure.name());
      figure.lit().forEach(l -> uses(Kind.COLOUR, l.colour()));
      figure.lit().forEach(l -> uses(Kind.RHYTHM, l.rhythm()));
    }
  }

  private void aspect(Tree.Aspect aspect) {
    declares(Kind.ASPECT, aspect.name());
    letters(aspect.name());
    aspect.was().forEach(this::letters);
    aspect.indications().forEach(this::letters);
    aspect.allows().forEach(this::allows);
    for (Tree.Shows shows : aspect.shows()) {
      uses(Kind.FORM, shows.forms());
      uses(Kind.PLATE, shows.plates());
      shows.patterns().forEach(this::pattern);
    }
    for (Tree.Likeness likeness : aspect.likenesses()) {
      uses(Kind.ASPECT, List.of(likeness.aspect()));
      letters(likeness.aspect());
      uses(Kind.FORM, likeness.forms());
      uses(Kind.PLATE, List.of(likeness.plate()));
      likeness.exceptions().forEach(this::pattern);
    }
  }

  private void allows(Tree.Allows allows) {
    movement(allows.here());
    allows.next().forEach(this::movement);
    allows.second().forEach(this::movement);
  }

  private void movement(Tree.Movement movement) {
    for (List<Tree.Pace> paces : List.of(movement.speed(), movement.reduced())) {
      for (Tree.Pace pace : paces) {
        if (pace.numeral()) {
          letter(pace.name());
        } else {
          uses(Kind.SPEED, List.of(pace.name()));
        }
      }
    }
  }

  /** The letters in a text, each where it stands. */
  private void letters(Word text) {
    Numerals.lettersIn(text.span()).forEach(span -> letter(new Word(span.text(), span)));
  }

  /** The first place of a letter declares it: in an aspect that is the name. */
  private void letter(Word letter) {
    add(Kind.LETTER, part, letter, letters.add(part + " " + letter.text()));
  }

  private void pattern(Tree.Pattern pattern) {
    for (Tree.Choice choice : pattern.choices()) {
      choice.letter().forEach(this::letter);
      for (Tree.Display display : choice.displays()) {
        uses(Kind.RHYTHM, display.rhythm());
        look(display.look());
      }
    }
  }

  private void look(Word word) {
    String look = word.text();
    boolean figure = figures.contains(look);
    if (figure) {
      uses(Kind.FIGURE, List.of(word));
    }
    if (colours.contains(look) || !figure && !look.equals(Display.DARK.look())) {
      uses(Kind.COLOUR, List.of(word));
    }
  }

  private void declares(Kind kind, Word word) {
    add(kind, "", word, true);
  }

  private void uses(Kind kind, List<Word> words) {
    words.forEach(word -> add(kind, "", word, false));
  }

  /** A word that only a mended text has is written nowhere. */
  private void add(Kind kind, String owner, Word word, boolean declares) {
    if (word.span().start() < word.span().end()) {
      found.add(new Mention(kind, owner, word.text(), word.span(), declares));
    }
  }
}
