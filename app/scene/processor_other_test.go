//go:build !unix

package scene

// processor is not known here.
func processor() float64 { return 0 }
