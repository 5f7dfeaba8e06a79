package dev.doublet.cli;

import dev.doublet.Versions;
import dev.doublet.diff.Changes;
import dev.doublet.diff.ChangesText;
import dev.doublet.diff.Comparison;
import dev.doublet.diff.Consequence;
import dev.doublet.diff.JsonChanges;
import dev.doublet.diff.Pair;
import dev.doublet.diff.UnseenRepository;
import dev.doublet.diff.Version;
import dev.doublet.page.ChangesPage;
import dev.doublet.page.ReviewComment;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code diff}: what changed in meaning. */
@Command(
    name = "diff",
    mixinStandardHelpOptions = true,
    description =
        "Says what changed in meaning between two rulebooks or layouts, two folders, or two revisions"
            + " in git: diff OLD NEW, where each may be REF:PATH, or diff A..B PATH…, where A...B is"
            + " what B did since it left A.")
final class DiffVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(
      paramLabel = "OLD NEW",
      arity = "1..*",
      description = "files, folders, REF:PATH, or A..B and files or folders in both")
  private List<String> arguments = new ArrayList<>();

  @Option(
      names = "--as",
      paramLabel = "FORMAT",
      description = "text (as usual), markdown for a review comment, html with pictures, or json")
  private Format as = Format.text;

  @Option(
      names = "--fail-on",
      paramLabel = "CLASS",
      description =
          "exits with 1 when a change is as bad as this: more (a crew may do more), seen (a crew sees"
              + " something else), work (must be re-soldered or re-sent), text (any)")
  private FailOn failOn = FailOn.never;

  /** How changes are written. */
  enum Format {
    text,
    markdown,
    html,
    json
  }

  /** From which consequence on a run fails. */
  enum FailOn {
    never,
    more,
    seen,
    work,
    text
  }

  DiffVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Changes changes;
    boolean alone;
    try (Sides sides = Sides.of(arguments, terminal.folder())) {
      alone = sides.before().single();
      changes = Comparison.of(pairs(sides.before(), sides.after()), unseen(sides));
    }
    terminal.print(document(changes));
    if (changes.isPartial()) {
      terminal.complain(
          "not everything was compared; \"doublet check\" tells what is wrong with a file"
              + (alone
                  ? "; git difftool hands over one file alone: for one that uses others say \"doublet"
                      + " diff A..B PATH\""
                  : ""));
      return Main.COULD_NOT_RUN;
    }
    boolean fails =
        failOn != FailOn.never
            && changes.worst().filter(w -> w.isAtLeast(consequence())).isPresent();
    return fails ? Main.FINDINGS : Main.CLEAN;
  }

  private String document(Changes changes) {
    return switch (as) {
      case text -> ChangesText.of(changes);
      case markdown -> ReviewComment.of(changes);
      case html -> ChangesPage.html(changes);
      case json -> JsonChanges.of(changes);
    };
  }

  private Consequence consequence() {
    for (Consequence consequence : Consequence.values()) {
      if (consequence.word().equals(failOn.name())) {
        return consequence;
      }
    }
    throw new IllegalStateException(failOn.name());
  }

  private static List<Pair> pairs(Side before, Side after) {
    List<Pair> pairs = new ArrayList<>();
    if (before.single()) {
      pairs.add(new Pair(only(before), only(after)));
      return pairs;
    }
    TreeSet<String> files = new TreeSet<>(before.files());
    files.addAll(after.files());
    for (String file : files) {
      Version old = before.files().contains(file) ? Versions.read(file, before.reader()) : null;
      Version now = after.files().contains(file) ? Versions.read(file, after.reader()) : null;
      pairs.add(new Pair(old, now));
    }
    return pairs;
  }

  /** Other repositories of which another commit is taken, or nobody knows which: none is read. */
  private static List<UnseenRepository> unseen(Sides sides) {
    Map<String, String> before = sides.before().submodules();
    Map<String, String> after = sides.after().submodules();
    TreeSet<String> paths = new TreeSet<>(before.keySet());
    paths.addAll(after.keySet());
    return paths.stream()
        .map(p -> new UnseenRepository(p, before.getOrDefault(p, ""), after.getOrDefault(p, "")))
        .filter(u -> !u.before().equals(u.after()))
        .toList();
  }

  private static Version only(Side side) {
    return side.files().isEmpty() ? null : Versions.read(side.files().get(0), side.reader());
  }
}
