/* A follower of libmodbus on a serial port: libmodbus_hidden_unit DEVICE UNIT.
   Holding registers 200 to 239 hold three times their address; nothing else is there. It says "ready", answers until its
   standard input ends, and then tells how often it was asked each function: "3:41 17:1". */
#include <errno.h>
#include <modbus.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>

int main(int argc, char **argv) {
    int asked[256] = { 0 };
    modbus_t *it = argc == 3 ? modbus_new_rtu(argv[1], 19200, 'N', 8, 1) : NULL;
    modbus_mapping_t *map = modbus_mapping_new_start_address(0, 0, 0, 0, 200, 40, 0, 0);
    if (it == NULL || map == NULL || modbus_set_slave(it, atoi(argv[2])) || modbus_connect(it)) return 1;
    modbus_set_error_recovery(it, MODBUS_ERROR_RECOVERY_PROTOCOL);
    for (int i = 0; i < 40; i++) map->tab_registers[i] = 3 * (200 + i);
    puts("ready");
    fflush(stdout);
    struct pollfd ways[2] = { { modbus_get_socket(it), POLLIN, 0 }, { 0, POLLIN, 0 } };
    while (poll(ways, 2, -1) > 0 && !ways[1].revents) {
        unsigned char query[MODBUS_RTU_MAX_ADU_LENGTH];
        int length = modbus_receive(it, query);
        if (length <= 0) continue; /* of another unit, or no frame */
        asked[query[1]]++;
        modbus_reply(it, query, length, map);
    }
    for (int i = 0; i < 256; i++)
        if (asked[i]) printf("%d:%d ", i, asked[i]);
    puts("");
    return 0;
}
