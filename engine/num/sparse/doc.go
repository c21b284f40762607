// Package sparse solves linear systems with a sparse matrix of symmetric
// pattern and unsymmetric values, many times over one pattern.
//
// Main types: Pattern (ordering and fill, found once, shared between
// goroutines), Matrix (values: a diagonal and two entries per edge) and
// Factor (LU values and work space, one per goroutine). In: a graph by its
// edges. Out: x with A x = b, or its transpose. No pivoting: the caller
// promises a matrix that is diagonally dominant by columns, as mass balances
// are; a floor in the caller keeps the diagonal away from zero. A tree costs
// O(n). Sources: Amestoy, Davis, Duff 1996 (approximate minimum degree); Liu
// 1990 (elimination tree). It does not estimate condition or refine.
package sparse
