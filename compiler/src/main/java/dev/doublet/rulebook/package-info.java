/**
 * A rulebook with every name resolved: speeds, colours, rhythms, heads, forms, plates and aspects,
 * and the order of restrictiveness between aspects. Depends on {@code source}, {@code diagnostic},
 * {@code syntax} and, for the names of published colours, {@code colour}; layouts, checks and
 * tables stand on it.
 *
 * <p>A book is always made, of what could be read: a mistake costs the declaration that it stands
 * in. What such a declaration may declare is {@linkplain dev.doublet.rulebook.Unread unread}, and
 * nothing is said of its uses.
 *
 * <p><b>Restrictiveness is a partial order.</b> {@code stop} permits nothing. A speed with a figure
 * is at most another if its figure is, and if it is on sight or the other is not. No speed is above
 * {@code maximum}, and of an {@code unranked} one no more is known. A next signal of which nothing
 * is said is passed as this one; on sight, a train must be ready to stop there ({@code
 * Permission.announced}). A next signal said to be at short distance is the more restrictive of two
 * with the same speeds, but on sight. What is unsaid of the second signal restricts nothing. Where
 * an order is not known, checks say so.
 *
 * <p><b>A fault may not permit more anywhere soon.</b> An aspect that is read for another need not
 * be the less restrictive one: a train that comes too fast here is not slowed by what it is told of
 * the next signal. So {@code Verdict} asks for each respect (speed, sight, a stop first) at this
 * signal and at the next. More at the second signal alone is a note: the next speaks of it again.
 *
 * <p><b>A figure has one look.</b> A plain colour lights the one lamp that can show it; where
 * several can, a figure of the colour's name says which. {@code twin-figures} forbids two names for
 * the same lamps of a head, so that patterns can be compared by name alone and the comparison is
 * still exact.
 *
 * <p><b>A signal without stop.</b> Distant signals, and those whose plate allows passing, never
 * show the most restrictive aspect. The book says so ({@code form … without stop}, {@code plate …
 * without stop}); without it, {@code no-stop} asks.
 *
 * <p><b>Families.</b> A plate {@code turns} whole movements into others ({@code slow} does not
 * touch {@code stop, then slow}), and an aspect is {@code as} another with that plate; both become
 * ordinary patterns whose spans are the {@code as} line, so nothing later knows of them. What
 * follows {@code except} leaves out whole patterns, so none has to be cut in two. An expectation is
 * one line with a keyword of its own, so each merges and greps alone.
 *
 * <p><b>Sequence.</b> An aspect may follow another when it asks no more of a train than the train
 * was told to be ready for. What stands in no known order is no starting point for {@code
 * sequence-gap}. The chart lists at the second signal what is announced there exactly, since what
 * is less restrictive may stand anywhere.
 *
 * <p><b>Hashes are cheap.</b> Aspects, kinds and units hash by name, since they are looked up often
 * and hold much.
 */
package dev.doublet.rulebook;
