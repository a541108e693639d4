// Package report makes pictures and pages of a case that leave the program:
// figures of the joint in three dimensions, beside those of package chart.
package report
