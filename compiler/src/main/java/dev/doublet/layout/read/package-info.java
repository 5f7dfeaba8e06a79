/**
 * Reads layouts: each class one part of a layout file, complaining of what it cannot use. Depends
 * on {@code syntax}, {@code rulebook} and the records of {@code layout}, which know nothing of it;
 * the compiler uses it.
 *
 * <p><b>The layout.</b> Addresses go on from the signal before, over chains and controllers,
 * starting at 1; basic and extended ones share the count. {@code flash} and {@code ram} must be
 * said, since a default would make the budgets meaningless. A signal that says neither kind nor
 * form is built as the one before it on its chain. Anchors and aliases are refused, which also
 * makes a bomb of them harmless. The YAML library takes time quadratic in the length of one word,
 * so a line of more than a million characters is refused.
 *
 * <p><b>Mistakes.</b> Two classes gather mistakes, this room's {@code Complaints} and the
 * rulebook's {@code Mistakes}, and what both do, such as to sort, to shorten and to find the
 * nearest name, they have from the ground. One for both would be no simpler: a layout counts its
 * losses, so that what is half read is left out, while a book keeps what is half read; a layout
 * blames a key or a unit, a book a declaration, and tells what else a name is declared as. A
 * mistake in the book is said by the book alone: names that it may declare where it could not be
 * read are looked up in {@code BookNames}, and not complained of.
 */
package dev.doublet.layout.read;
