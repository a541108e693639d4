// Package cohort answers many cases in one run: one case per line in, as CSV or
// NDJSON, one result per line out, in the order of the lines.
//
// Lines are read in small batches, answered by as many workers as are asked
// for, and written in the order in which they were read; no more than a few
// batches are held at a time, so that memory does not grow with the file. A
// line that cannot be answered becomes a result that says which field is wrong,
// with its value and the reason, and the run goes on. A run whose output is a
// file can be killed at any moment and taken up again (File); a run can be
// shared among machines by shards, whose results are joined to what a single
// run would have written (Merge).
//
// The same answers are given by kinematics for one joint; here round designs
// are answered on the demand's arcs and other designs by steps along shared
// legs, so that a line costs no more than it must.
package cohort
