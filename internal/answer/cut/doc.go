// Package cut finds the cheapest stock lengths and coils to cut given pieces from, says
// which piece comes from which, and proves that it cannot be done for less.
//
// Main entries: Solve, and Joinable for "one more coil, or join two ends with a union?".
// In: a Question: stocks with price and number, pieces, kerf, end trim, all in whole
// tenths of a millimetre and smallest coins. Out: a Plan with price, bound and open ends.
// Method: Gilmore, Gomory 1961 (patterns, recalled): all ways to fill one bar are listed,
// or asked for one by one where they are too many; their relaxation gives a bound and
// prices each length. Only patterns that these prices allow in a plan as cheap as is
// sought are kept, and a search over numbers of bars and of patterns with given pieces
// closes the gap (after Vance 1998, recalled). Bounds are sums of whole numbers, so that
// no rounding can make a wrong proof.
// It does not order pieces by where they go on a wall, and it knows no job document.
package cut
