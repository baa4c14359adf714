// Package file writes what a run of the program makes, all of it or none, and
// never over anything that it must not touch.
//
// A folder that is not there yet is made under another name beside its place and
// appears by one rename. A folder that is there, with the sheets of an earlier run
// and whatever plain files the user has put beside them, is made again in the same
// way, with links to the files that stay, and changes places with the old one: by
// one system call where the system has it, else by two renames. A folder for
// which that is not possible stays in its place: the working folder, one with folders
// or links of the user's in it, with the design in it, or on a file system without
// hard links. There the old files are moved out, then the new ones moved in, by a
// plan written down first, which the next run finishes if this one dies: what lies
// there in between is never of two runs. A single file takes its place by one
// rename.
//
// All that is unfinished lies under names of the form .stabile-TOKEN. A run that
// finds such names while it holds the lock of their folder knows that their run is
// dead, finishes what had been decided, and clears the rest away. The lock is one
// of the system's, which ends with its process.
//
// What was written is on the disk before anything is moved. Ctrl-C is obeyed up to
// then, and after that the move is finished.
package file
