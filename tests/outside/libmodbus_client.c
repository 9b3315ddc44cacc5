/* A client that does what the lines of its standard input say, by libmodbus: one line of answer to each.
   libmodbus_client tcp HOST PORT | rtu DEVICE */
#include <errno.h>
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int told(int count) {
    if (count >= 0) return 1;
    printf("error: %s\n", modbus_strerror(errno));
    return 0;
}

static void tell(const unsigned short *words, int count) {
    for (int i = 0; i < count; i++) printf("%s%d", i ? " " : "", words[i]);
    puts("");
}

static void tell_bytes(const unsigned char *bytes, int count) {
    for (int i = 0; i < count; i++) printf("%s%02X", i ? " " : "", bytes[i]);
    puts("");
}

int main(int argc, char **argv) {
    int rtu = argc == 3;
    modbus_t *it = rtu ? modbus_new_rtu(argv[2], 19200, 'N', 8, 1) : modbus_new_tcp(argv[2], atoi(argv[3]));
    char line[2000], word[100];
    if (it == NULL || (rtu && modbus_set_slave(it, 17)) || modbus_connect(it)) return 1;
    modbus_set_response_timeout(it, 1, 0);
    while (fgets(line, sizeof line, stdin)) {
        int values[130], count = 0, step, at;
        unsigned short words[130];
        unsigned char bytes[2000];
        sscanf(line, "%99s%n", word, &at);
        while (count < 130 && sscanf(line + at, "%i%n", &values[count], &step) == 1) at += step, count++;
        int first = values[0], n = values[1];
        for (int i = 1; i < count; i++) words[i - 1] = values[i], bytes[i - 1] = values[i];
        if (!strcmp(word, "unit")) {
            if (told(modbus_set_slave(it, first))) puts("done");
        } else if (!strcmp(word, "holding")) {
            if (told(modbus_read_registers(it, first, n, words))) tell(words, n);
        } else if (!strcmp(word, "input")) {
            if (told(modbus_read_input_registers(it, first, n, words))) tell(words, n);
        } else if (!strcmp(word, "coils") || !strcmp(word, "discrete")) {
            if (told((*word == 'c' ? modbus_read_bits : modbus_read_input_bits)(it, first, n, bytes))) {
                for (int i = 0; i < n; i++) words[i] = bytes[i];
                tell(words, n);
            }
        } else if (!strcmp(word, "write")) {
            int done = count == 2 ? modbus_write_register(it, first, n) : modbus_write_registers(it, first, count - 1, words);
            if (told(done)) puts("done");
        } else if (!strcmp(word, "switch")) {
            int done = count == 2 ? modbus_write_bit(it, first, n) : modbus_write_bits(it, first, count - 1, bytes);
            if (told(done)) puts("done");
        } else if (!strcmp(word, "mask")) {
            if (told(modbus_mask_write_register(it, first, values[1], values[2]))) puts("done");
        } else if (!strcmp(word, "both")) { /* read FIRST N, written AT the rest */
            int read = modbus_write_and_read_registers(it, values[2], count - 3, words + 2, first, n, words + 64);
            if (told(read)) tell(words + 64, read);
        } else if (!strcmp(word, "identity")) {
            int size = modbus_report_slave_id(it, sizeof bytes, bytes);
            if (told(size)) tell_bytes(bytes, size);
        } else if (!strcmp(word, "raw")) { /* the bytes of a request from its unit on; the answer from there on */
            for (int i = 0; i < count; i++) bytes[i] = values[i];
            if (told(modbus_send_raw_request(it, bytes, count))) {
                int size = modbus_receive_confirmation(it, bytes);
                if (told(size)) tell_bytes(bytes + (rtu ? 0 : 6), size - (rtu ? 2 : 6));
            }
        }
        fflush(stdout);
    }
    modbus_close(it);
    modbus_free(it);
    return 0;
}
