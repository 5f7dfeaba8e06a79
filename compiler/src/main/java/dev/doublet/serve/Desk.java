package dev.doublet.serve;

import dev.doublet.check.Checks;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.editor.CarriedFindings;
import dev.doublet.editor.Root;
import dev.doublet.editor.Texts;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The texts that lie open, and what is found in them. */
final class Desk {
  /** Names of findings that only the slow run gives. */
  private static final Set<String> SLOW =
      Stream.concat(Checks.all().stream().filter(c -> c.takesLong()), Checks.OF_FINDINGS.stream())
          .map(c -> c.name())
          .collect(Collectors.toUnmodifiableSet());

  private final Folder folder;
  private final Listener listener;
  private final ExecutorService prompt = Executors.newSingleThreadExecutor(thread("prompt"));
  private final ExecutorService patient = Executors.newSingleThreadExecutor(thread("patient"));

  private final Map<String, Open> open = new TreeMap<>();
  private long changes;
  private SourceReader saved;
  private List<String> known;
  private Future<?> slowRun = CompletableFuture.completedFuture(null);

  // Only the prompt thread touches what follows.
  private final Map<String, Root> roots = new TreeMap<>();
  private final Map<String, Root> whole = new HashMap<>();
  private final Map<String, CarriedFindings> carried = new HashMap<>();
  private final Map<String, Root> legible = new HashMap<>();
  private Set<String> told = Set.of();

  /** Takes what is to be shown. */
  interface Listener {
    /**
     * All findings of one file.
     *
     * @param version of the open text that they are of; null where it is not open
     */
    void show(String name, Integer version, List<Diagnostic> findings);
  }

  /** A text in the editor. */
  private record Open(SourceFile text, int version) {}

  Desk(Folder folder, Listener listener) {
    this.folder = folder;
    this.listener = listener;
    forget();
  }

  private static java.util.concurrent.ThreadFactory thread(String name) {
    return work -> {
      Thread thread = new Thread(work, name);
      thread.setDaemon(true);
      return thread;
    };
  }

  /** Reads from the disk again what is not open. */
  synchronized void forget() {
    saved = kept(folder.saved());
    known = null;
    changed();
  }

  private static SourceReader kept(SourceReader reader) {
    Map<String, SourceFile> files = new ConcurrentHashMap<>();
    return path -> {
      SourceFile known = files.get(path);
      if (known == null) {
        known = reader.read(path).kept();
        files.put(path, known);
      }
      return known;
    };
  }

  /** Has a text open as it is now. */
  synchronized void open(String name, String text, int version) {
    open.put(name, new Open(new SourceFile(name, text).kept(), version));
    changed();
  }

  /** The text that lies open; an empty one when none does. */
  synchronized SourceFile text(String name) {
    Open text = open.get(name);
    return text == null ? new SourceFile(name, "") : text.text();
  }

  /** Closes a text: what is saved counts again. */
  synchronized void close(String name) {
    open.remove(name);
    forget();
  }

  /** Ends all work. */
  synchronized void end() {
    changes++;
    patient.shutdownNow();
    prompt.shutdown();
  }

  /** What is asked of the texts, answered when they have been read. */
  <T> CompletableFuture<T> ask(Supplier<T> question) {
    return CompletableFuture.supplyAsync(question, prompt);
  }

  /** Everything that reads a file, its own reading first. For questions. */
  List<Root> rootsOf(String name) {
    List<Root> all = new ArrayList<>();
    roots.values().stream().filter(r -> r.path().equals(name)).forEach(all::add);
    roots.values().stream()
        .filter(r -> !r.path().equals(name) && r.files().containsKey(name))
        .forEach(all::add);
    return all;
  }

  /**
   * What a file was last read as part of when there was a rulebook to read: while a line is being
   * written there may be none. For questions.
   */
  Optional<Root> lastLegible(String name) {
    return rootsOf(name).stream()
        .flatMap(r -> Stream.ofNullable(legible.get(r.path())))
        .findFirst();
  }

  /** Everything that was read. For questions. */
  Collection<Root> all() {
    return List.copyOf(roots.values());
  }

  /** The texts as they are now. */
  synchronized Texts texts() {
    Map<String, SourceFile> now = new TreeMap<>();
    open.forEach((name, text) -> now.put(name, text.text()));
    return new Texts(now, saved);
  }

  private void changed() {
    long change = ++changes;
    slowRun.cancel(true);
    prompt.execute(() -> readQuickly(change));
  }

  private synchronized boolean isLast(long change) {
    return change == changes;
  }

  private synchronized List<String> known() {
    if (known == null) {
      known = folder.roots();
    }
    return known;
  }

  private void readQuickly(long change) {
    if (!isLast(change)) {
      return;
    }
    Texts texts = texts();
    Set<String> paths = new TreeSet<>(known());
    roots.keySet().retainAll(union(paths, texts.open().keySet()));
    for (String path : paths) {
      read(path, texts);
    }
    Set<String> reached =
        roots.values().stream()
            .flatMap(r -> r.files().keySet().stream())
            .collect(Collectors.toSet());
    for (String path : texts.open().keySet()) {
      if (!reached.contains(path) || roots.containsKey(path)) {
        read(path, texts);
      }
    }
    whole.keySet().retainAll(roots.keySet());
    carried.keySet().retainAll(roots.keySet());
    legible.keySet().retainAll(roots.keySet());
    show();
    if (isLast(change)) {
      runSlowly(change, texts);
    }
  }

  private static Set<String> union(Set<String> one, Set<String> other) {
    Set<String> both = new HashSet<>(one);
    both.addAll(other);
    return both;
  }

  private void read(String path, Texts texts) {
    Root before = roots.get(path);
    if (before == null || !isPresent(before, texts)) {
      Root now = Root.quick(path, texts);
      roots.put(path, now);
      if (now.book().isPresent()) {
        legible.put(path, now);
      }
    }
  }

  /** True when every text of a reading is still as it was read, and what was missing still is. */
  private static boolean isPresent(Root root, Texts texts) {
    if (root.missing().stream().anyMatch(name -> isThere(name, texts))) {
      return false;
    }
    for (SourceFile file : root.files().values()) {
      try {
        if (!texts.read(file.name()).text().equals(file.text())) {
          return false;
        }
      } catch (SourceReader.Unreadable gone) {
        return false;
      }
    }
    return root.files().containsKey(root.path());
  }

  private static boolean isThere(String name, Texts texts) {
    try {
      texts.read(name);
      return true;
    } catch (SourceReader.Unreadable missing) {
      return false;
    }
  }

  /** Runs all checks of what is open and not yet checked as it is now. */
  private void runSlowly(long change, Texts texts) {
    List<Root> due = roots.values().stream().filter(r -> isOpen(r, texts) && !isWhole(r)).toList();
    if (due.isEmpty()) {
      return;
    }
    synchronized (this) {
      if (patient.isShutdown()) {
        return;
      }
      slowRun =
          patient.submit(
              () -> {
                for (Root root : due) {
                  Root checked;
                  try {
                    checked = root.whole();
                  } catch (CancellationException e) {
                    return;
                  }
                  finish(change, checked);
                }
              });
    }
  }

  private synchronized void finish(long change, Root checked) {
    if (isLast(change)) {
      prompt.execute(
          () -> {
            whole.put(checked.path(), checked);
            List<Diagnostic> slow =
                checked.findings().stream().filter(d -> SLOW.contains(d.name())).toList();
            carried.put(checked.path(), new CarriedFindings(slow));
            show();
          });
    }
  }

  private boolean isWhole(Root root) {
    Root checked = whole.get(root.path());
    return checked != null && sameTexts(checked, root);
  }

  private static boolean sameTexts(Root one, Root other) {
    return texts(one).equals(texts(other));
  }

  private static Map<String, String> texts(Root root) {
    Map<String, String> texts = new HashMap<>();
    root.files().forEach((name, file) -> texts.put(name, file.text()));
    return texts;
  }

  private static boolean isOpen(Root root, Texts texts) {
    return root.files().keySet().stream().anyMatch(texts.open()::containsKey)
        || texts.open().containsKey(root.path());
  }

  private void show() {
    Texts texts = texts();
    Map<String, TreeSet<Diagnostic>> byFile = new TreeMap<>();
    for (Root root : roots.values()) {
      if (isOpen(root, texts)) {
        for (Diagnostic finding : findings(root)) {
          byFile
              .computeIfAbsent(
                  finding.primary().span().file().name(), n -> new TreeSet<>(Diagnostic.ORDER))
              .add(finding);
        }
      }
    }
    Set<String> now = union(byFile.keySet(), texts.open().keySet());
    for (String name : new TreeSet<>(union(now, told))) {
      listener.show(
          name,
          version(name),
          List.copyOf(byFile.getOrDefault(name, new TreeSet<>(Diagnostic.ORDER))));
    }
    told = byFile.keySet();
  }

  private synchronized Integer version(String name) {
    return open.containsKey(name) ? open.get(name).version() : null;
  }

  private List<Diagnostic> findings(Root root) {
    Root checked = whole.get(root.path());
    if (checked == null) {
      return root.findings();
    }
    if (sameTexts(checked, root)) {
      return checked.findings();
    }
    List<Diagnostic> all = new ArrayList<>(root.findings());
    all.addAll(carried.get(root.path()).over(root.files()));
    return all;
  }
}
