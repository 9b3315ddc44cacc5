/* Wine 8 has no Windows.UI.ViewManagement.UISettings, and Qt 6 ends without it. This library, named for that class in the
 * registry, answers just what Qt asks: colours, animations are on; handlers are taken and forgotten. Objects live as long
 * as the process, so references are not counted. The layout of the interfaces is that of the Windows SDK's
 * windows.ui.viewmanagement.h. */
#include <string.h>
#include <windows.h>

typedef struct Object Object;

/* IInspectable, then the methods of the interface. */
typedef struct {
    HRESULT (WINAPI *query_interface)(Object *, REFIID, void **);
    ULONG (WINAPI *add_reference)(Object *);
    ULONG (WINAPI *release)(Object *);
    HRESULT (WINAPI *interfaces)(Object *, ULONG *, IID **);
    HRESULT (WINAPI *class_name)(Object *, void **);
    HRESULT (WINAPI *trust_level)(Object *, int *);
    void *methods[16];
} Table;

struct Object {
    Table *table;
};

static const GUID UNKNOWN = {0, 0, 0, {0xc0, 0, 0, 0, 0, 0, 0, 0x46}};
static const GUID INSPECTABLE = {0xaf86e2e0, 0xb12d, 0x4c6a, {0x9c, 0x5a, 0xd7, 0xaa, 0x65, 0x10, 0x1e, 0x90}};
static const GUID FACTORY = {0x35, 0, 0, {0xc0, 0, 0, 0, 0, 0, 0, 0x46}};
static const GUID SETTINGS = {0x85361600, 0x1c63, 0x4627, {0xbc, 0xb1, 0x3a, 0x89, 0xe0, 0xbc, 0x9c, 0x55}};
static const GUID SETTINGS_3 = {0x03021be4, 0x5254, 0x4781, {0x81, 0x94, 0x51, 0x68, 0xf7, 0xd0, 0x6d, 0x7b}};
static const GUID SETTINGS_4 = {0x52bb3002, 0x919b, 0x4d6b, {0x9b, 0x78, 0x8d, 0xd6, 0x6f, 0xf4, 0xb9, 0x3b}};

static HRESULT WINAPI query_interface(Object *, REFIID, void **);
static HRESULT WINAPI activate(Object *, void **);

static ULONG WINAPI add_reference(Object *self) { return 2; }
static ULONG WINAPI release(Object *self) { return 1; }
static HRESULT WINAPI class_name(Object *self, void **name) { *name = NULL; return S_OK; }
static HRESULT WINAPI trust_level(Object *self, int *level) { *level = 0; return S_OK; }
static HRESULT WINAPI not_here(void) { return E_NOTIMPL; }
static HRESULT WINAPI remove_handler(Object *self, INT64 token) { return S_OK; }

static HRESULT WINAPI interfaces(Object *self, ULONG *count, IID **which)
{
    *count = 0;
    *which = NULL;
    return S_OK;
}

static HRESULT WINAPI add_handler(Object *self, void *handler, INT64 *token)
{
    *token = 1;
    return S_OK;
}

static HRESULT WINAPI animations(Object *self, BYTE *on)
{
    *on = 1;
    return S_OK;
}

/* Of UIColorType: 0 the background, white; 1 the foreground, black; all others shades of the accent, blue. */
static HRESULT WINAPI colour(Object *self, int which, BYTE *alpha_red_green_blue)
{
    static const BYTE colours[3][4] = {{255, 255, 255, 255}, {255, 0, 0, 0}, {255, 0, 0x78, 0xd4}};
    memcpy(alpha_red_green_blue, colours[which < 2 ? which : 2], 4);
    return S_OK;
}

#define HEAD query_interface, add_reference, release, interfaces, class_name, trust_level
#define NONE not_here, not_here, not_here, not_here
static Table base_table = {HEAD, {NONE, NONE, NONE, NONE}};
static Table colours_table = {HEAD, {colour, add_handler, remove_handler, not_here, NONE, NONE, NONE}};
static Table effects_table = {HEAD, {animations, add_handler, remove_handler, not_here, NONE, NONE, NONE}};
static Table factory_table = {HEAD, {activate, not_here, not_here, not_here, NONE, NONE, NONE}};
static Object base = {&base_table}, colours_3 = {&colours_table}, effects_4 = {&effects_table}, factory = {&factory_table};

static BOOL same(const GUID *one, const GUID *other) { return !memcmp(one, other, sizeof *one); }

static HRESULT WINAPI query_interface(Object *self, REFIID wanted, void **found)
{
    if (same(wanted, &SETTINGS_3))
        *found = &colours_3;
    else if (same(wanted, &SETTINGS_4))
        *found = &effects_4;
    else if (self == &factory && same(wanted, &FACTORY))
        *found = &factory;
    else if (same(wanted, &SETTINGS) || same(wanted, &UNKNOWN) || same(wanted, &INSPECTABLE))
        *found = self == &factory ? &factory : &base;
    else
        *found = NULL;
    return *found ? S_OK : E_NOINTERFACE;
}

static HRESULT WINAPI activate(Object *self, void **made)
{
    *made = &base;
    return S_OK;
}

__declspec(dllexport) HRESULT WINAPI DllGetActivationFactory(void *name, void **found)
{
    *found = &factory;
    return S_OK;
}

__declspec(dllexport) HRESULT WINAPI DllCanUnloadNow(void) { return S_FALSE; }
