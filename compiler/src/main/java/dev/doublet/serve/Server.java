package dev.doublet.serve;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.editor.Completion;
import dev.doublet.editor.Explanation;
import dev.doublet.editor.Mends;
import dev.doublet.editor.Outline;
import dev.doublet.editor.Proposal;
import dev.doublet.editor.Renaming;
import dev.doublet.editor.Root;
import dev.doublet.format.Format;
import dev.doublet.format.Spacing;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.function.Function;
import org.eclipse.lsp4j.CodeAction;
import org.eclipse.lsp4j.CodeActionKind;
import org.eclipse.lsp4j.CodeActionOptions;
import org.eclipse.lsp4j.CodeActionParams;
import org.eclipse.lsp4j.Command;
import org.eclipse.lsp4j.CompletionItem;
import org.eclipse.lsp4j.CompletionItemKind;
import org.eclipse.lsp4j.CompletionList;
import org.eclipse.lsp4j.CompletionOptions;
import org.eclipse.lsp4j.CompletionParams;
import org.eclipse.lsp4j.DefinitionParams;
import org.eclipse.lsp4j.DidChangeConfigurationParams;
import org.eclipse.lsp4j.DidChangeTextDocumentParams;
import org.eclipse.lsp4j.DidChangeWatchedFilesParams;
import org.eclipse.lsp4j.DidCloseTextDocumentParams;
import org.eclipse.lsp4j.DidOpenTextDocumentParams;
import org.eclipse.lsp4j.DidSaveTextDocumentParams;
import org.eclipse.lsp4j.DocumentFormattingParams;
import org.eclipse.lsp4j.DocumentRangeFormattingParams;
import org.eclipse.lsp4j.DocumentSymbol;
import org.eclipse.lsp4j.DocumentSymbolParams;
import org.eclipse.lsp4j.Hover;
import org.eclipse.lsp4j.HoverParams;
import org.eclipse.lsp4j.InitializeParams;
import org.eclipse.lsp4j.InitializeResult;
import org.eclipse.lsp4j.InitializedParams;
import org.eclipse.lsp4j.Location;
import org.eclipse.lsp4j.LocationLink;
import org.eclipse.lsp4j.MarkupContent;
import org.eclipse.lsp4j.MarkupKind;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.PrepareRenameDefaultBehavior;
import org.eclipse.lsp4j.PrepareRenameParams;
import org.eclipse.lsp4j.PrepareRenameResult;
import org.eclipse.lsp4j.PublishDiagnosticsParams;
import org.eclipse.lsp4j.Range;
import org.eclipse.lsp4j.ReferenceParams;
import org.eclipse.lsp4j.RenameOptions;
import org.eclipse.lsp4j.RenameParams;
import org.eclipse.lsp4j.ServerCapabilities;
import org.eclipse.lsp4j.ServerInfo;
import org.eclipse.lsp4j.SetTraceParams;
import org.eclipse.lsp4j.SymbolInformation;
import org.eclipse.lsp4j.SymbolKind;
import org.eclipse.lsp4j.TextDocumentContentChangeEvent;
import org.eclipse.lsp4j.TextDocumentIdentifier;
import org.eclipse.lsp4j.TextDocumentItem;
import org.eclipse.lsp4j.TextDocumentPositionParams;
import org.eclipse.lsp4j.TextDocumentSyncKind;
import org.eclipse.lsp4j.TextDocumentSyncOptions;
import org.eclipse.lsp4j.TextEdit;
import org.eclipse.lsp4j.VersionedTextDocumentIdentifier;
import org.eclipse.lsp4j.WorkspaceEdit;
import org.eclipse.lsp4j.WorkspaceFolder;
import org.eclipse.lsp4j.jsonrpc.Launcher;
import org.eclipse.lsp4j.jsonrpc.ResponseErrorException;
import org.eclipse.lsp4j.jsonrpc.messages.Either;
import org.eclipse.lsp4j.jsonrpc.messages.Either3;
import org.eclipse.lsp4j.jsonrpc.messages.ResponseError;
import org.eclipse.lsp4j.jsonrpc.messages.ResponseErrorCode;
import org.eclipse.lsp4j.launch.LSPLauncher;
import org.eclipse.lsp4j.services.LanguageClient;
import org.eclipse.lsp4j.services.LanguageServer;
import org.eclipse.lsp4j.services.TextDocumentService;
import org.eclipse.lsp4j.services.WorkspaceService;

/**
 * One session with an editor. It is long because each request of the protocol that is answered is a
 * method of it.
 */
public final class Server implements LanguageServer, TextDocumentService, WorkspaceService {
  /** Editors sort by text, so that all numbers need as many digits. */
  private static final int FIRST_OF_SORTED = 10_000;

  private final Folder.Opening opening;
  private LanguageClient client;
  private Folder folder;
  private Messages messages;
  private Desk desk;
  private boolean ending;
  private final CompletableFuture<Boolean> ended = new CompletableFuture<>();

  private Server(Folder.Opening opening) {
    this.opening = opening;
  }

  /**
   * Serves an editor until it ends the session or its stream.
   *
   * @param opening opens the folder that the editor names
   * @return true when the editor ended the session as the protocol asks
   */
  public static boolean serve(InputStream in, OutputStream out, Folder.Opening opening)
      throws InterruptedException {
    Server server = new Server(opening);
    Launcher<LanguageClient> launcher =
        new LSPLauncher.Builder<LanguageClient>()
            .setLocalService(server)
            .setRemoteInterface(LanguageClient.class)
            .setInput(in)
            .setOutput(out)
            .setExceptionHandler(Server::unanswered)
            .create();
    server.client = launcher.getRemoteProxy();
    var listening = launcher.startListening();
    CompletableFuture.runAsync(
        () -> {
          try {
            listening.get();
          } catch (InterruptedException | ExecutionException e) {
            Thread.currentThread().interrupt();
          }
          server.ended.complete(server.ending);
        });
    try {
      return server.ended.get();
    } catch (ExecutionException e) {
      throw new IllegalStateException("the end of a session holds no fault", e);
    } finally {
      if (server.desk != null) {
        server.desk.end();
      }
    }
  }

  /** What is told of a request without an answer: a refusal, or a fault without its innards. */
  private static ResponseError unanswered(Throwable thrown) {
    Throwable cause = thrown;
    while (!(cause instanceof ResponseErrorException) && cause.getCause() != null) {
      cause = cause.getCause();
    }
    return cause instanceof ResponseErrorException refusal
        ? refusal.getResponseError()
        : new ResponseError(
            ResponseErrorCode.InternalError,
            "this request lacks what the protocol asks for, or Doublet is at fault ("
                + cause.getClass().getSimpleName()
                + ")",
            null);
  }

  @Override
  public CompletableFuture<InitializeResult> initialize(InitializeParams params) {
    if (folder != null) {
      return refused(ResponseErrorCode.InvalidRequest, "the session has begun already");
    }
    folder = opening.open(folders(params));
    messages = new Messages(folder);
    ServerCapabilities can = new ServerCapabilities();
    TextDocumentSyncOptions sync = new TextDocumentSyncOptions();
    sync.setOpenClose(true);
    sync.setChange(TextDocumentSyncKind.Incremental);
    sync.setSave(true);
    can.setTextDocumentSync(sync);
    can.setCompletionProvider(new CompletionOptions(false, List.of("\"", " ", "{", "[")));
    can.setHoverProvider(true);
    can.setDefinitionProvider(true);
    can.setReferencesProvider(true);
    can.setDocumentSymbolProvider(true);
    can.setDocumentFormattingProvider(true);
    can.setDocumentRangeFormattingProvider(true);
    can.setRenameProvider(new RenameOptions(true));
    can.setCodeActionProvider(new CodeActionOptions(List.of(CodeActionKind.QuickFix)));
    return CompletableFuture.completedFuture(new InitializeResult(can, new ServerInfo("doublet")));
  }

  @SuppressWarnings("deprecation") // Old editors name their folder in the old way.
  private static List<String> folders(InitializeParams params) {
    if (params.getWorkspaceFolders() != null && !params.getWorkspaceFolders().isEmpty()) {
      return params.getWorkspaceFolders().stream().map(WorkspaceFolder::getUri).toList();
    }
    return params.getRootUri() == null ? List.of() : List.of(params.getRootUri());
  }

  @Override
  public void initialized(InitializedParams params) {
    if (folder != null) {
      desk();
    }
  }

  /** The name of a file; none is known before the session begins. */
  private Optional<String> name(String uri) {
    return folder == null ? Optional.empty() : folder.name(uri);
  }

  private void reread() {
    if (folder != null) {
      desk().forget();
    }
  }

  private static <T> CompletableFuture<T> refused(ResponseErrorCode code, String why) {
    return CompletableFuture.failedFuture(
        new ResponseErrorException(new ResponseError(code, why, null)));
  }

  private synchronized Desk desk() {
    if (desk == null) {
      Map<String, PublishDiagnosticsParams> shown = new HashMap<>();
      desk =
          new Desk(
              folder,
              (name, version, findings) -> {
                PublishDiagnosticsParams all =
                    new PublishDiagnosticsParams(
                        folder.uri(name), findings.stream().map(messages::diagnostic).toList());
                all.setVersion(version);
                if (!all.equals(shown.put(name, all))) {
                  client.publishDiagnostics(all);
                }
              });
    }
    return desk;
  }

  @Override
  public CompletableFuture<Object> shutdown() {
    ending = true;
    return CompletableFuture.completedFuture(null);
  }

  @Override
  public void exit() {
    ended.complete(ending);
  }

  @Override
  public TextDocumentService getTextDocumentService() {
    return this;
  }

  @Override
  public WorkspaceService getWorkspaceService() {
    return this;
  }

  @Override
  public void setTrace(SetTraceParams params) {
    // Nothing here is worth tracing.
  }

  @Override
  public void didOpen(DidOpenTextDocumentParams params) {
    TextDocumentItem text = params.getTextDocument();
    name(text.getUri()).ifPresent(name -> desk().open(name, text.getText(), text.getVersion()));
  }

  @Override
  public void didChange(DidChangeTextDocumentParams params) {
    VersionedTextDocumentIdentifier id = params.getTextDocument();
    name(id.getUri())
        .ifPresent(
            name -> {
              String text = desk().text(name).text();
              for (TextDocumentContentChangeEvent change : params.getContentChanges()) {
                text = changed(new SourceFile(name, text), change);
              }
              desk().open(name, text, id.getVersion());
            });
  }

  private static String changed(SourceFile before, TextDocumentContentChangeEvent change) {
    if (change.getRange() == null) {
      return change.getText();
    }
    int start = Messages.offset(before, change.getRange().getStart());
    int end = Messages.offset(before, change.getRange().getEnd());
    return new StringBuilder(before.text())
        .replace(Math.min(start, end), Math.max(start, end), change.getText())
        .toString();
  }

  @Override
  public void didClose(DidCloseTextDocumentParams params) {
    name(params.getTextDocument().getUri()).ifPresent(name -> desk().close(name));
  }

  @Override
  public void didSave(DidSaveTextDocumentParams params) {
    reread();
  }

  @Override
  public void didChangeConfiguration(DidChangeConfigurationParams params) {
    // There is nothing to configure.
  }

  @Override
  public void didChangeWatchedFiles(DidChangeWatchedFilesParams params) {
    reread();
  }

  @Override
  public CompletableFuture<Either<List<CompletionItem>, CompletionList>> completion(
      CompletionParams params) {
    return asked(
        params,
        at ->
            Either.forLeft(
                desk.lastLegible(at.file().name())
                    .map(root -> items(Completion.at(root, at.file(), at.offset())))
                    .orElse(List.of())));
  }

  private static List<CompletionItem> items(List<Proposal> proposals) {
    List<CompletionItem> items = new ArrayList<>();
    for (Proposal proposal : proposals) {
      CompletionItem item = new CompletionItem(proposal.text().strip());
      item.setDetail(proposal.meaning().isEmpty() ? null : proposal.meaning());
      item.setKind(
          switch (proposal.sort()) {
            case WORD -> CompletionItemKind.Keyword;
            case KEY -> CompletionItemKind.Property;
            case NAME -> CompletionItemKind.Reference;
            case PATTERN -> CompletionItemKind.Value;
          });
      item.setSortText(Integer.toString(FIRST_OF_SORTED + items.size()));
      item.setFilterText(sought(proposal));
      item.setTextEdit(
          Either.forLeft(new TextEdit(Messages.range(proposal.place()), proposal.text())));
      items.add(item);
    }
    return items;
  }

  /** What is held against what was typed: quotation marks only where one was typed. */
  private static String sought(Proposal proposal) {
    boolean marked = proposal.place().text().matches("(?s)[\"'].*");
    String text = proposal.text().strip();
    return marked ? text : text.replaceAll("^\"|\"$", "");
  }

  @Override
  public CompletableFuture<Hover> hover(HoverParams params) {
    return asked(
        params,
        at ->
            at.roots().stream()
                .flatMap(root -> Explanation.at(root, at.file(), at.offset()).stream())
                .findFirst()
                .map(Server::hover)
                .orElse(null));
  }

  private static Hover hover(Explanation explanation) {
    MarkupContent text =
        new MarkupContent(MarkupKind.MARKDOWN, Messages.markdown(explanation.parts()));
    return new Hover(text, Messages.range(explanation.place()));
  }

  @Override
  public CompletableFuture<Either<List<? extends Location>, List<? extends LocationLink>>>
      definition(DefinitionParams params) {
    return asked(
        params,
        at -> {
          TreeSet<Span> declared = new TreeSet<>();
          for (Root root : at.roots()) {
            root.nameAt(at.file(), at.offset())
                .ifPresent(n -> root.declarations(n).forEach(d -> declared.add(d.span())));
          }
          return Either.forLeft(declared.stream().map(messages::location).toList());
        });
  }

  @Override
  public CompletableFuture<List<? extends Location>> references(ReferenceParams params) {
    return asked(
        params,
        at ->
            Renaming.places(desk.all(), at.file(), at.offset()).stream()
                .map(messages::location)
                .toList());
  }

  @Override
  public CompletableFuture<Either3<Range, PrepareRenameResult, PrepareRenameDefaultBehavior>>
      prepareRename(PrepareRenameParams params) {
    return asked(
        params,
        at ->
            Renaming.places(desk.all(), at.file(), at.offset()).stream()
                .filter(place -> isAt(place, at))
                .findFirst()
                .map(
                    place ->
                        Either3.<Range, PrepareRenameResult, PrepareRenameDefaultBehavior>forFirst(
                            Messages.range(inside(place))))
                .orElse(null));
  }

  private static boolean isAt(Span place, At at) {
    return place.file().name().equals(at.file().name())
        && place.start() <= at.offset()
        && at.offset() <= place.end();
  }

  /** A name without its quotation marks. */
  private static Span inside(Span name) {
    String text = name.text();
    boolean quoted = text.length() > 1 && (text.startsWith("\"") || text.startsWith("'"));
    return quoted ? name.file().span(name.start() + 1, name.end() - 1) : name;
  }

  @Override
  public CompletableFuture<WorkspaceEdit> rename(RenameParams params) {
    return asked(
        params,
        at -> {
          Renaming renaming =
              Renaming.of(desk.all(), desk.texts(), at.file(), at.offset(), params.getNewName());
          if (!renaming.refusal().isEmpty()) {
            throw new ResponseErrorException(
                new ResponseError(ResponseErrorCode.RequestFailed, renaming.refusal(), null));
          }
          return edit(renaming.edits());
        });
  }

  private WorkspaceEdit edit(Map<Span, String> edits) {
    Map<String, List<TextEdit>> byFile = new LinkedHashMap<>();
    edits.forEach(
        (span, text) ->
            byFile
                .computeIfAbsent(folder.uri(span.file().name()), u -> new ArrayList<>())
                .add(new TextEdit(Messages.range(span), text)));
    return new WorkspaceEdit(byFile);
  }

  @Override
  public CompletableFuture<List<Either<SymbolInformation, DocumentSymbol>>> documentSymbol(
      DocumentSymbolParams params) {
    return asked(
        params.getTextDocument(),
        new Position(0, 0),
        at ->
            Outline.of(at.file()).stream()
                .map(o -> Either.<SymbolInformation, DocumentSymbol>forRight(symbol(o)))
                .toList());
  }

  private static DocumentSymbol symbol(Outline outline) {
    DocumentSymbol symbol = new DocumentSymbol();
    symbol.setName(outline.name().isBlank() ? outline.what() : outline.name());
    symbol.setDetail(outline.what());
    symbol.setKind(outline.inside().isEmpty() ? SymbolKind.Constant : SymbolKind.Namespace);
    symbol.setRange(Messages.range(outline.whole()));
    symbol.setSelectionRange(Messages.range(outline.place()));
    symbol.setChildren(outline.inside().stream().map(Server::symbol).toList());
    return symbol;
  }

  @Override
  public CompletableFuture<List<Either<Command, CodeAction>>> codeAction(CodeActionParams params) {
    return asked(
        params.getTextDocument(),
        params.getRange().getStart(),
        at -> {
          int end = Messages.offset(at.file(), params.getRange().getEnd());
          Map<String, CodeAction> actions = new LinkedHashMap<>();
          for (Root root : at.roots()) {
            root.findings().stream()
                .filter(f -> f.primary().span().file().name().equals(at.file().name()))
                .filter(f -> f.primary().span().start() <= end)
                .filter(f -> f.primary().span().end() >= at.offset())
                .forEach(
                    f ->
                        Mends.of(root, desk.texts(), f)
                            .forEach(x -> actions.putIfAbsent(x.title(), action(f, x))));
          }
          return actions.values().stream().map(Either::<Command, CodeAction>forRight).toList();
        });
  }

  private CodeAction action(
      dev.doublet.diagnostic.Diagnostic finding, dev.doublet.diagnostic.Fix fix) {
    CodeAction action = new CodeAction(fix.title());
    action.setKind(CodeActionKind.QuickFix);
    action.setDiagnostics(List.of(messages.diagnostic(finding)));
    action.setIsPreferred(fix.safe());
    Map<Span, String> edits = new LinkedHashMap<>();
    fix.edits().forEach(e -> edits.put(e.span(), e.replacement()));
    action.setEdit(edit(edits));
    return action;
  }

  @Override
  public CompletableFuture<List<? extends TextEdit>> formatting(DocumentFormattingParams params) {
    return asked(
        params.getTextDocument(),
        new Position(0, 0),
        at -> edits(Format.changes(language(at.file()), at.file())));
  }

  @Override
  public CompletableFuture<List<? extends TextEdit>> rangeFormatting(
      DocumentRangeFormattingParams params) {
    int first = params.getRange().getStart().getLine() + 1;
    int last = params.getRange().getEnd().getLine() + 1;
    return asked(
        params.getTextDocument(),
        params.getRange().getStart(),
        at -> edits(Format.changes(language(at.file()), at.file(), first, last)));
  }

  private static Format.Language language(SourceFile file) {
    return LayoutResolver.isLayout(file.name()) ? Format.Language.LAYOUT : Format.Language.ASPECTS;
  }

  /** What is broken is left as it is: the findings tell. */
  private static List<TextEdit> edits(Outcome<List<Spacing>> changes) {
    return changes.value().orElse(List.of()).stream()
        .map(c -> new TextEdit(Messages.range(c.span()), c.text()))
        .toList();
  }

  /** Where something is asked, and what reads the file. */
  private record At(SourceFile file, int offset, List<Root> roots) {}

  private <T> CompletableFuture<T> asked(
      TextDocumentPositionParams params, Function<At, T> answer) {
    return asked(params.getTextDocument(), params.getPosition(), answer);
  }

  private <T> CompletableFuture<T> asked(
      TextDocumentIdentifier id, Position position, Function<At, T> answer) {
    if (folder == null) {
      return refused(ResponseErrorCode.ServerNotInitialized, "the session has not begun");
    }
    if (ending) {
      return refused(ResponseErrorCode.InvalidRequest, "the session has been shut down");
    }
    Optional<String> name = name(id.getUri());
    SourceFile file = desk().text(name.orElse(""));
    int offset = Messages.offset(file, position);
    return desk().ask(() -> answer.apply(new At(file, offset, desk.rootsOf(file.name()))));
  }
}
