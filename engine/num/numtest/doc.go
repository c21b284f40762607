// Package numtest asks glpsol (GNU Linear Programming Kit) what a test of a search
// wants to be held against: an integer programme that shares no code with the search.
//
// Main entry: Glpsol. In: the programme in CPLEX LP form. Out: its least price, that
// nothing fulfils it, or that it was not proven in the time. It writes no programme.
package numtest
