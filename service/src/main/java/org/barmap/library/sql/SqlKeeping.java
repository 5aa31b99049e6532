package org.barmap.library.sql;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import org.barmap.library.BinCard;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.Keeping;
import org.barmap.library.keep.Kept;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.keep.SetAside;
import org.barmap.library.picture.PictureStore;

/** The care of a folder with a store: what is named and not there, what is there and not named. */
final class SqlKeeping implements Keeping {

  private static final System.Logger LOG = System.getLogger(SqlKeeping.class.getName());

  /** More than so many are counted, not named. */
  private static final int NAMED = 5;

  private final Store store;
  private final Path root;
  private final PictureStore pictures;
  private final PictureCheck check;
  private final Removal removal;
  private final SqlBooks shelf;
  private final SetAside setAside;
  private final List<String> notices = new CopyOnWriteArrayList<>();

  SqlKeeping(
      Store store,
      Path root,
      PictureStore pictures,
      Removal removal,
      SqlBooks shelf,
      SetAside setAside) {
    this.pictures = pictures;
    this.check = new PictureCheck(store, root.resolve("books"), pictures);
    this.store = store;
    this.root = root;
    this.removal = removal;
    this.shelf = shelf;
    this.setAside = setAside;
  }

  /** Adds a sentence that a person should read; the log has it too. */
  void say(String notice) {
    notices.add(notice);
    LOG.log(System.Logger.Level.WARNING, "found at the start: {0}", notice);
  }

  /** Looks through the pictures while nothing else is at work. */
  void atStart() {
    Set<String> named = named();
    bringBack(named);
    tidy(named);
    putAside(named);
    check.noteOlder();
    List<Kept.Missing> missing = check.sizes().map(check::missing).orElse(List.of());
    missing.stream()
        .limit(NAMED)
        .forEach(
            m -> say("The picture of page " + m.page() + " of " + m.book() + " " + m.what() + "."));
    if (missing.size() > NAMED) {
      say((missing.size() - NAMED) + " more page pictures are missing or damaged.");
    }
  }

  /** Deletes copies of pictures that were removed elsewhere; others may be at work. */
  void dropCopies() {
    try {
      pictures.dropCopies(named());
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "copies of removed pictures stay: {0}", e);
    }
  }

  private Set<String> named() {
    return new HashSet<>(
        store.jdbi().withHandle(h -> h.createQuery(SqlLibrary.NAMED).mapTo(String.class).list()));
  }

  private void tidy(Set<String> named) {
    try {
      pictures.tidy(named);
    } catch (IOException e) {
      say("The pictures can't be looked through: " + e.getMessage() + ".");
    }
  }

  private void bringBack(Set<String> named) {
    long back =
        named.stream()
            .map(root.resolve("books")::resolve)
            .filter(file -> !Files.exists(file, LinkOption.NOFOLLOW_LINKS))
            .filter(setAside::bringBack)
            .count();
    if (back > 0) {
      say(
          many(back, "picture that was", "pictures that were")
              + " set aside earlier and that the database names again "
              + (back == 1 ? "is" : "are")
              + " back in place.");
    }
  }

  private void putAside(Set<String> named) {
    Set<String> books =
        new HashSet<>(
            store
                .jdbi()
                .withHandle(h -> h.createQuery("select id from book").mapTo(String.class).list()));
    for (Path book : OurFiles.list(root.resolve("books"))) {
      if (OurFiles.isBook(book)) {
        boolean known = books.contains(OurFiles.name(book));
        OurFiles.list(book).stream()
            .filter(OurFiles::isOfBook)
            .filter(file -> !isUsed(book, file, named, known))
            .forEach(file -> setAside.move(file, why(file, known)));
      }
    }
    setAside
        .place()
        .ifPresent(
            place ->
                say(
                    many(setAside.moved().size(), "file", "files")
                        + " that barmap made and that no book needs "
                        + (setAside.moved().size() == 1 ? "was" : "were")
                        + " set aside in "
                        + root.relativize(place)
                        + ". Nothing was deleted; "
                        + SetAside.LIST
                        + " there says where each one was"
                        + "."));
  }

  private static boolean isUsed(Path book, Path file, Set<String> named, boolean known) {
    // a book whose opening was cut short is told by this file
    boolean unfinished = known && OurFiles.name(file).equals(".unfinished");
    return unfinished || named.contains(OurFiles.name(book) + "/" + OurFiles.name(file));
  }

  private static String why(Path file, boolean known) {
    if (!OurFiles.isPicture(file)) {
      return "half written when barmap was ended";
    }
    return known
        ? "no page of a book is on it"
        : "no page of a book is on it, the database does not know its book";
  }

  private static String many(long count, String one, String more) {
    return count + " " + (count == 1 ? one : more);
  }

  @Override
  public List<String> notices() {
    return List.copyOf(notices);
  }

  @Override
  public Kept kept() {
    Optional<Map<String, Long>> sizes = check.sizes();
    Map<String, Long> kept = new HashMap<>(sizes.orElse(Map.of()));
    kept.keySet().retainAll(named());
    long bytes = kept.values().stream().mapToLong(Long::longValue).sum();
    List<Path> smaller =
        OurFiles.list(root.resolve("cache")).stream().filter(OurFiles::isScaled).toList();
    return new Kept(
        root.toAbsolutePath().toString(),
        Closing.isClosed(root),
        shelf.all().size(),
        shelf.bin().size(),
        store.size(),
        new Kept.Amount(kept.size(), bytes),
        amount(smaller),
        setAside(sizes),
        sizes.map(check::missing).orElse(List.of()));
  }

  @Override
  public Kept.Amount setAside() {
    return setAside(pictures.isElsewhere() ? check.sizes() : Optional.empty());
  }

  /** With pictures of replaced books that are kept elsewhere still. */
  private Kept.Amount setAside(Optional<Map<String, Long>> sizes) {
    Kept.Amount here = amount(setAside.files());
    Map<String, Long> there = new HashMap<>(sizes.orElse(Map.of()));
    there.keySet().retainAll(replaced());
    long bytes = there.values().stream().mapToLong(Long::longValue).sum();
    return new Kept.Amount(here.files() + there.size(), here.bytes() + bytes);
  }

  private Set<String> replaced() {
    Set<String> replaced = pictures.isElsewhere() ? setAside.elsewhere() : new HashSet<>();
    if (!replaced.isEmpty()) {
      replaced.removeAll(named());
    }
    return replaced;
  }

  private static Kept.Amount amount(Collection<Path> files) {
    long bytes =
        files.stream()
            .mapToLong(f -> PictureMark.sizeOf(f).map(PictureMark::bytes).orElse(0L))
            .sum();
    return new Kept.Amount(files.size(), bytes);
  }

  @Override
  public Optional<Integer> binDays() {
    return store.jdbi().withHandle(Removal::binDays);
  }

  @Override
  public void setBinDays(Optional<Integer> days) {
    store.jdbi().useTransaction(h -> Keys.set(h, Removal.BIN_DAYS, days.map(String::valueOf)));
  }

  @Override
  public int emptyBin() {
    int gone = 0;
    for (BinCard card : shelf.bin()) {
      gone += removal.purge(card.id(), Instant.MAX) ? 1 : 0;
    }
    removal.sweep();
    return gone;
  }

  @Override
  public void deleteSetAside() throws IOException {
    for (String file : replaced()) {
      int slash = file.indexOf('/');
      pictures.remove(file.substring(0, slash), file.substring(slash + 1));
    }
    setAside.deleteAll();
    notices.removeIf(n -> n.contains(" set aside in "));
  }
}
