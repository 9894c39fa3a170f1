// Only in builds with sanitizers: libraries loaded at run time stay loaded to the end.
extern "C" int dlclose(void*);

extern "C" int dlclose(void*) {
    return 0;
}
