package kinematics

// Published reads a table of testdata/published for tests outside the package.
var Published = published
