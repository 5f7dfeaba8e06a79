package dev.doublet.cli;

import com.sun.management.ThreadMXBean;
import dev.doublet.serve.Server;
import java.io.IOException;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Predicate;
import org.eclipse.lsp4j.Diagnostic;
import org.eclipse.lsp4j.DidChangeTextDocumentParams;
import org.eclipse.lsp4j.DidCloseTextDocumentParams;
import org.eclipse.lsp4j.DidOpenTextDocumentParams;
import org.eclipse.lsp4j.InitializeParams;
import org.eclipse.lsp4j.InitializedParams;
import org.eclipse.lsp4j.MessageActionItem;
import org.eclipse.lsp4j.MessageParams;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.PublishDiagnosticsParams;
import org.eclipse.lsp4j.Range;
import org.eclipse.lsp4j.ShowMessageRequestParams;
import org.eclipse.lsp4j.TextDocumentContentChangeEvent;
import org.eclipse.lsp4j.TextDocumentIdentifier;
import org.eclipse.lsp4j.TextDocumentItem;
import org.eclipse.lsp4j.VersionedTextDocumentIdentifier;
import org.eclipse.lsp4j.WorkspaceFolder;
import org.eclipse.lsp4j.launch.LSPLauncher;
import org.eclipse.lsp4j.services.LanguageClient;
import org.eclipse.lsp4j.services.LanguageServer;

/** An editor that speaks the protocol over pipes, by the client half of a published library. */
final class Editor implements LanguageClient, AutoCloseable {
  private static final long PATIENCE = 60;

  private final Path folder;
  private final LanguageServer server;
  private final CompletableFuture<Boolean> ended;
  private final Map<String, PublishDiagnosticsParams> shown = new HashMap<>();
  private final Map<String, Moment> first = new HashMap<>();
  private Moment last = Moment.now();
  private final Map<String, Integer> versions = new HashMap<>();

  Editor(Path folder) throws IOException {
    this.folder = folder;
    PipedInputStream toServer = new PipedInputStream(1 << 20);
    PipedInputStream toEditor = new PipedInputStream(1 << 20);
    PipedOutputStream fromEditor = new PipedOutputStream(toServer);
    PipedOutputStream fromServer = new PipedOutputStream(toEditor);
    ended =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                return Server.serve(toServer, fromServer, uris -> new EditorFolder(folder, uris));
              } catch (InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    var launcher = LSPLauncher.createClientLauncher(this, toEditor, fromEditor);
    launcher.startListening();
    server = launcher.getRemoteProxy();
    InitializeParams hello = new InitializeParams();
    hello.setWorkspaceFolders(List.of(new WorkspaceFolder(folder.toUri().toString(), "folder")));
    get(server.initialize(hello));
    server.initialized(new InitializedParams());
  }

  LanguageServer server() {
    return server;
  }

  TextDocumentIdentifier id(String name) {
    return new TextDocumentIdentifier(folder.resolve(name).toUri().toString());
  }

  void open(String name, String text) {
    versions.put(name, 1);
    server
        .getTextDocumentService()
        .didOpen(
            new DidOpenTextDocumentParams(
                new TextDocumentItem(id(name).getUri(), "doublet", 1, text)));
  }

  /** The whole text anew. */
  void change(String name, String text) {
    change(name, null, text);
  }

  /** A part of the text. */
  void change(String name, Range range, String text) {
    int version = versions.merge(name, 1, Integer::sum);
    server
        .getTextDocumentService()
        .didChange(
            new DidChangeTextDocumentParams(
                new VersionedTextDocumentIdentifier(id(name).getUri(), version),
                List.of(new TextDocumentContentChangeEvent(range, text))));
  }

  void closeText(String name) {
    server.getTextDocumentService().didClose(new DidCloseTextDocumentParams(id(name)));
  }

  /** What is shown of a file once it is as asked. */
  synchronized List<Diagnostic> shown(String name, Predicate<List<Diagnostic>> asked)
      throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE);
    while (true) {
      PublishDiagnosticsParams last = shown.get(id(name).getUri());
      boolean present =
          last != null
              && (last.getVersion() == null || last.getVersion().equals(versions.get(name)));
      if (present && asked.test(last.getDiagnostics())) {
        return last.getDiagnostics();
      }
      if (System.nanoTime() > end) {
        throw new AssertionError(name + " shows " + last);
      }
      wait(50);
    }
  }

  /** The version of a text that was sent last. */
  int version(String name) {
    return versions.get(name);
  }

  /** When something was shown: by the clock, and by what all threads had worked, in ns. */
  record Moment(long clock, long work) {

    static Moment now() {
      ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
      long work = 0;
      for (long spent : threads.getThreadCpuTime(threads.getAllThreadIds())) {
        work += Math.max(0, spent);
      }
      return new Moment(System.nanoTime(), work);
    }
  }

  /** Waits until a version of a text was shown; when it first was. */
  synchronized Moment firstShown(String name, int version) throws InterruptedException {
    String which = id(name).getUri() + "@" + version;
    while (!first.containsKey(which)) {
      wait(TimeUnit.SECONDS.toMillis(PATIENCE));
    }
    return first.get(which);
  }

  /**
   * Waits until all texts show what is given.
   *
   * @return when the last of them did
   */
  synchronized Moment shown(Map<String, List<Diagnostic>> all) throws InterruptedException {
    while (!shownNow().equals(all)) {
      wait(TimeUnit.SECONDS.toMillis(PATIENCE));
    }
    return last;
  }

  /** What all texts show now. */
  synchronized Map<String, List<Diagnostic>> shownNow() {
    Map<String, List<Diagnostic>> now = new HashMap<>();
    shown.forEach((uri, all) -> now.put(uri, all.getDiagnostics()));
    return now;
  }

  /** When something was shown last. */
  synchronized Moment last() {
    return last;
  }

  @Override
  public synchronized void publishDiagnostics(PublishDiagnosticsParams all) {
    last = Moment.now();
    shown.put(all.getUri(), all);
    first.putIfAbsent(all.getUri() + "@" + all.getVersion(), last);
    notifyAll();
  }

  static <T> T get(CompletableFuture<T> answer) {
    try {
      return answer.get(PATIENCE, TimeUnit.SECONDS);
    } catch (InterruptedException | TimeoutException e) {
      throw new AssertionError(e);
    } catch (ExecutionException e) {
      throw new AssertionError(e.getCause().getMessage(), e.getCause());
    }
  }

  /** The place before the first, second… time that a text stands in another. */
  static Position at(String text, String words, int time) {
    int offset = -1;
    for (int i = 0; i < time; i++) {
      offset = text.indexOf(words, offset + 1);
    }
    String before = text.substring(0, offset);
    int line = (int) before.chars().filter(c -> c == '\n').count();
    return new Position(line, offset - (before.lastIndexOf('\n') + 1));
  }

  @Override
  public void close() {
    get(server.shutdown());
    server.exit();
    if (!get(ended)) {
      throw new AssertionError("the session did not end as it was asked to");
    }
  }

  @Override
  public void telemetryEvent(Object event) {}

  @Override
  public void showMessage(MessageParams message) {}

  @Override
  public CompletableFuture<MessageActionItem> showMessageRequest(ShowMessageRequestParams request) {
    return CompletableFuture.completedFuture(null);
  }

  @Override
  public void logMessage(MessageParams message) {
    throw new AssertionError(message.getMessage());
  }
}
