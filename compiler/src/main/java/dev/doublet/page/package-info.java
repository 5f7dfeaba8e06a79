/**
 * Pictures: aspects drawn as lamps in their heads, a rulebook's aspect chart and sequence chart as
 * one page, and a layout's signals alive on another. Colours are worked out by {@code colour}; what
 * stands ahead of what, what is wrong with it, and the tables of a layout are handed in. Everything
 * drawn is a pure function of its records; the pages hold all they need and ask nothing of a
 * network. Depends on {@code table}, {@code facts} and what is below them; the command line uses
 * it.
 *
 * <p><b>A layout alive.</b> Lamps are lit by {@code reader.wasm}, which is the reader in C compiled
 * by {@code src/main/wasm/build}, and kept among the resources so that who builds Doublet needs no
 * clang; a second reader in another language could be wrong in its own way. The script has no
 * framework and no step that packs it: its files stand in the page as they are, but for comments
 * and indents. What is shown follows from what was sent and the time alone, so the page goes back
 * in time by sending all anew. What a crew reads of a signal on which something failed is worked
 * out here, fault by fault and picture by picture ({@link dev.doublet.page.Readings}), and only
 * looked up there.
 */
package dev.doublet.page;
