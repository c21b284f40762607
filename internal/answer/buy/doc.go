// Package buy finds the cheapest basket of offers that covers a need.
//
// Main entries: Cheapest and OneSupplier. In: a Question (need, drawer and spare by
// article, suppliers, offers); all money in hundredths. Out: a Basket with its lines,
// deliveries, price, what is left over, and a proof or the bound reached. An offer is
// bought a whole number of times; a supplier that is used charges its delivery unless
// its goods reach the sum from which it is free. Method: an integer programme in
// which each supplier is unused, charging or free (engine/num/mip). It knows nothing
// of the job document; it does not judge articles, stocks or times of delivery.
package buy
