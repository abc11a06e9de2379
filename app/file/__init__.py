"""The program’s own files: jobs, settings, samples, exports, what a kill left behind; every fault in a sentence."""
