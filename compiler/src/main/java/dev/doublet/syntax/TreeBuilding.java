package dev.doublet.syntax;

import dev.doublet.grammar.AspectsParser.AcceptanceContext;
import dev.doublet.grammar.AspectsParser.AheadContext;
import dev.doublet.grammar.AspectsParser.AllowsContext;
import dev.doublet.grammar.AspectsParser.ArmContext;
import dev.doublet.grammar.AspectsParser.AspectContext;
import dev.doublet.grammar.AspectsParser.BareContext;
import dev.doublet.grammar.AspectsParser.BookLineContext;
import dev.doublet.grammar.AspectsParser.ChangeContext;
import dev.doublet.grammar.AspectsParser.ChoiceContext;
import dev.doublet.grammar.AspectsParser.ColourContext;
import dev.doublet.grammar.AspectsParser.ColoursContext;
import dev.doublet.grammar.AspectsParser.CoverContext;
import dev.doublet.grammar.AspectsParser.DeclarationContext;
import dev.doublet.grammar.AspectsParser.DisplayContext;
import dev.doublet.grammar.AspectsParser.ExpectationContext;
import dev.doublet.grammar.AspectsParser.FigureContext;
import dev.doublet.grammar.AspectsParser.FormContext;
import dev.doublet.grammar.AspectsParser.HeadContext;
import dev.doublet.grammar.AspectsParser.ImperfectContext;
import dev.doublet.grammar.AspectsParser.LampsContext;
import dev.doublet.grammar.AspectsParser.LikenessContext;
import dev.doublet.grammar.AspectsParser.LitContext;
import dev.doublet.grammar.AspectsParser.LookContext;
import dev.doublet.grammar.AspectsParser.MasksContext;
import dev.doublet.grammar.AspectsParser.MeaningContext;
import dev.doublet.grammar.AspectsParser.MovementContext;
import dev.doublet.grammar.AspectsParser.NumbersContext;
import dev.doublet.grammar.AspectsParser.OrderContext;
import dev.doublet.grammar.AspectsParser.PaceContext;
import dev.doublet.grammar.AspectsParser.PatternContext;
import dev.doublet.grammar.AspectsParser.PositionContext;
import dev.doublet.grammar.AspectsParser.ProvisoContext;
import dev.doublet.grammar.AspectsParser.RhythmContext;
import dev.doublet.grammar.AspectsParser.ShowsContext;
import dev.doublet.grammar.AspectsParser.SpeedContext;
import dev.doublet.grammar.AspectsParser.SpeedsContext;
import dev.doublet.grammar.AspectsParser.SubjectContext;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.ParseTree;
import org.antlr.v4.runtime.tree.TerminalNode;

/** Turns what the generated parser made of a correct declaration into ours. */
final class TreeBuilding {
  private final TextWords words;

  TreeBuilding(TextWords words) {
    this.words = words;
  }

  Tree.Declaration declaration(DeclarationContext context) {
    if (context.bookLine() != null) {
      return bookLine(context.bookLine());
    } else if (context.use() != null) {
      return new Tree.Use(word(context.use().STRING()), span(context));
    } else if (context.speeds() != null) {
      return speeds(context.speeds());
    } else if (context.numbers() != null) {
      return numbers(context.numbers());
    } else if (context.colours() != null) {
      return colours(context.colours());
    } else if (context.rhythms() != null) {
      List<RhythmContext> rhythms = context.rhythms().rhythm();
      return new Tree.Rhythms(rhythms.stream().map(this::rhythm).toList(), span(context));
    } else if (context.head() != null) {
      return head(context.head());
    } else if (context.arm() != null) {
      return arm(context.arm());
    } else if (context.form() != null) {
      return form(context.form());
    } else if (context.plates() != null) {
      return new Tree.Plates(
          each(context.plates().plate()),
          context.plates().WITHOUT() != null,
          context.plates().change().stream().map(this::change).toList(),
          span(context));
    } else if (context.imperfect() != null) {
      return imperfect(context.imperfect());
    } else if (context.cover() != null) {
      return cover(context.cover());
    } else if (context.grave() != null) {
      return new Tree.Grave(each(context.grave().names().name()), span(context));
    } else if (context.acceptance() != null) {
      return acceptance(context.acceptance());
    } else if (context.expectation() != null) {
      return expectation(context.expectation());
    }
    return aspect(context.aspect());
  }

  private Tree.Declaration expectation(ExpectationContext context) {
    OrderContext order = context.order();
    if (order != null) {
      List<TerminalNode> names = order.STRING();
      if (order.allows() != null) {
        return new Tree.Allowed(word(names.get(0)), allows(order.allows()), span(context));
      }
      TerminalNode precedence = order.BEFORE() != null ? order.BEFORE() : order.AFTER();
      if (precedence != null) {
        return new Tree.Precedence(
            word(names.get(0)),
            order.NOT() != null,
            word(precedence),
            word(names.get(1)),
            span(context));
      }
      TerminalNode how = order.NO() != null ? order.NO() : (TerminalNode) order.getChild(1);
      return new Tree.Order(word(names.get(0)), word(how), word(names.get(1)), span(context));
    }
    MeaningContext meaning = context.meaning();
    return new Tree.Meaning(
        meaning.pattern().stream().map(this::pattern).toList(),
        each(meaning.names().name()),
        meaning.with() == null ? List.of() : each(meaning.with().plate()),
        atMostOne(meaning.STRING()),
        span(context));
  }

  private Tree.Imperfect imperfect(ImperfectContext context) {
    String readAs =
        context.rest().children.stream().map(ParseTree::getText).collect(Collectors.joining(" "));
    return new Tree.Imperfect(
        context.proviso().stream().map(this::proviso).toList(), readAs, span(context));
  }

  private Tree.Proviso proviso(ProvisoContext context) {
    return new Tree.Proviso(
        word(context.STRING()), each(context.shape()), context.ALONE() != null, span(context));
  }

  private Tree.Cover cover(CoverContext context) {
    return new Tree.Cover(
        each(context.names(0).name()),
        context.ON() == null ? List.of() : each(context.names(1).name()),
        word(context.STRING()),
        span(context));
  }

  private Tree.Accept acceptance(AcceptanceContext context) {
    List<SubjectContext> subjects = context.subject();
    return new Tree.Accept(
        word(context.name()),
        each(subjects.stream().map(SubjectContext::STRING).filter(Objects::nonNull).toList()),
        each(subjects.stream().map(SubjectContext::name).filter(Objects::nonNull).toList()),
        context.names() == null ? List.of() : each(context.names().name()),
        word(context.STRING()),
        span(context));
  }

  private Tree.BookLine bookLine(BookLineContext context) {
    return new Tree.BookLine(
        word(context.STRING()),
        context.edition().stream().map(e -> word(e.NUMBER())).toList(),
        context.effective().stream().map(e -> word(e.DATE())).toList(),
        span(context));
  }

  private Tree.Speeds speeds(SpeedsContext context) {
    List<Tree.Speed> speeds = new ArrayList<>();
    for (ParseTree part : context.children) {
      if (part instanceof SpeedContext speed) {
        speeds.add(speed(speed));
      } else if (part instanceof BareContext bare) {
        each(bare.NUMBER()).forEach(figure -> speeds.add(new Tree.Speed(figure, figure, false)));
      }
    }
    return new Tree.Speeds(word(context.unit()), speeds, span(context));
  }

  private Tree.Speed speed(SpeedContext context) {
    return new Tree.Speed(word(context.name()), word(context.getChild(1)), context.SIGHT() != null);
  }

  private Tree.Numbers numbers(NumbersContext context) {
    int first = context.TIMES() == null ? 0 : 1;
    List<Word> written = each(context.NUMBER());
    return new Tree.Numbers(
        written.subList(0, Math.min(first, written.size())),
        written.subList(Math.min(first, written.size()), written.size()),
        span(context));
  }

  private Tree.Colours colours(ColoursContext context) {
    List<ColourContext> listed =
        context.colourList() == null ? List.of() : context.colourList().colour();
    return new Tree.Colours(
        atMostOne(context.look()), listed.stream().map(this::colour).toList(), span(context));
  }

  private Tree.Colour colour(ColourContext context) {
    List<LookContext> names = context.look();
    return new Tree.Colour(word(names.get(0)), each(names.subList(1, names.size())));
  }

  private Tree.Rhythm rhythm(RhythmContext context) {
    List<TerminalNode> numbers = context.NUMBER();
    return new Tree.Rhythm(
        word(context.look()),
        word(numbers.get(0)),
        each(numbers.subList(1, numbers.size())),
        context.STARTING() != null);
  }

  private Tree.Head head(HeadContext context) {
    return new Tree.Head(
        word(context.name()),
        context.lamps().stream().map(this::lamps).toList(),
        context.figure().stream().map(this::figure).toList(),
        context.make().stream().anyMatch(m -> m.FILAMENT() != null),
        context.make().stream().filter(m -> m.VANE() != null).map(m -> word(m.look())).toList(),
        context.masks() == null ? List.of() : List.of(masks(context.masks())),
        List.of(),
        span(context));
  }

  private Tree.Head arm(ArmContext context) {
    return new Tree.Head(
        word(context.name()),
        List.of(),
        List.of(),
        false,
        List.of(),
        List.of(),
        context.position().stream().map(this::position).toList(),
        span(context));
  }

  private Tree.Position position(PositionContext context) {
    List<Word> words = each(context.look());
    return new Tree.Position(words.get(0), words.subList(1, words.size()));
  }

  private Tree.Masks masks(MasksContext context) {
    return new Tree.Masks(each(context.NUMBER()), word(context.look()), span(context));
  }

  private Tree.Lamps lamps(LampsContext context) {
    return new Tree.Lamps(each(context.names().name()), each(context.look()));
  }

  private Tree.Figure figure(FigureContext context) {
    return new Tree.Figure(word(context.shape()), context.lit().stream().map(this::lit).toList());
  }

  private Tree.Lit lit(LitContext context) {
    List<Word> names = each(context.name());
    int last = names.size() - 1;
    return new Tree.Lit(names.subList(0, last), names.get(last), atMostOne(context.look()));
  }

  private Tree.Form form(FormContext context) {
    String mount =
        context.mount() == null
            ? "in line"
            : context.mount().children.stream()
                .map(ParseTree::getText)
                .collect(Collectors.joining(" "));
    return new Tree.Form(
        word(context.name()),
        mount,
        context.place().stream()
            .map(p -> new Tree.Place(word(p.name()), p.USUALLY() != null))
            .toList(),
        context.WITHOUT() != null,
        span(context));
  }

  private Tree.Aspect aspect(AspectContext context) {
    return new Tree.Aspect(
        word(context.STRING()),
        context.was().stream().map(w -> word(w.STRING())).toList(),
        context.reference().stream().map(r -> word(r.getChild(1))).toList(),
        context.number().stream().map(n -> word(n.NUMBER())).toList(),
        context.number().stream().filter(n -> n.UP() != null).map(n -> word(n.NUMBER())).toList(),
        context.indicates().stream().map(i -> word(i.STRING())).toList(),
        context.allows().stream().map(this::allows).toList(),
        context.shows().stream().map(this::shows).toList(),
        context.likeness().stream().map(this::likeness).toList(),
        span(context));
  }

  private Tree.Change change(ChangeContext context) {
    return new Tree.Change(movement(context.movement(0)), movement(context.movement(1)));
  }

  private Tree.Likeness likeness(LikenessContext context) {
    return new Tree.Likeness(
        word(context.STRING()),
        context.names() == null ? List.of() : each(context.names().name()),
        word(context.plate()),
        context.pattern().stream().map(this::pattern).toList(),
        span(context));
  }

  private Tree.Allows allows(AllowsContext context) {
    List<Tree.Movement> movements = context.movement().stream().map(this::movement).toList();
    List<Tree.Movement> all = new ArrayList<>(movements);
    AheadContext ahead = context.ahead();
    boolean second = context.second() != null || ahead != null && ahead.SECOND() != null;
    if (ahead != null && ahead.movement() != null) {
      all.add(movement(ahead.movement()));
      second = true;
    }
    int last = all.size() - (second ? 1 : 0);
    return new Tree.Allows(
        all.get(0),
        all.subList(1, last),
        ahead != null && ahead.DISTANCE() != null,
        all.subList(last, all.size()),
        span(context));
  }

  private Tree.Movement movement(MovementContext context) {
    List<Tree.Pace> speeds = context.pace().stream().map(this::pace).toList();
    return new Tree.Movement(
        context.STOP() != null && context.NOT() == null,
        context.NOT() != null,
        speeds.subList(0, Math.min(1, speeds.size())),
        speeds.subList(Math.min(1, speeds.size()), speeds.size()),
        span(context));
  }

  private Tree.Pace pace(PaceContext context) {
    return context.numeral() == null
        ? new Tree.Pace(word(context), false)
        : new Tree.Pace(word(context.numeral().name()), true);
  }

  private Tree.Shows shows(ShowsContext context) {
    return new Tree.Shows(
        each(context.names().name()),
        context.with() == null ? List.of() : each(context.with().plate()),
        context.pattern().stream().map(this::pattern).toList(),
        span(context));
  }

  private Tree.Pattern pattern(PatternContext context) {
    return new Tree.Pattern(context.choice().stream().map(this::choice).toList(), span(context));
  }

  private Tree.Choice choice(ChoiceContext context) {
    return new Tree.Choice(
        context.display().stream().map(this::display).toList(),
        context.numeral() == null ? List.of() : List.of(word(context.numeral().name())),
        span(context));
  }

  private Tree.Display display(DisplayContext context) {
    ParseTree look = context.getChild(context.getChildCount() - 1);
    return new Tree.Display(
        context.getChildCount() == 1 ? List.of() : List.of(word(context.getChild(0))), word(look));
  }

  private List<Word> each(List<? extends ParseTree> nodes) {
    List<Word> each = new ArrayList<>();
    nodes.forEach(node -> each.add(word(node)));
    return each;
  }

  private List<Word> atMostOne(ParseTree node) {
    return node == null ? List.of() : List.of(word(node));
  }

  private Word word(ParseTree node) {
    return node instanceof TerminalNode leaf
        ? words.word(leaf.getSymbol())
        : words.word(((ParserRuleContext) node).getStart());
  }

  private Span span(ParserRuleContext context) {
    return words.span(context.getStart()).to(words.span(context.getStop()));
  }
}
