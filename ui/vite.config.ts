/// <reference types="vitest/config" />
import preact from "@preact/preset-vite";
import { defineConfig } from "vite";

const server = process.env["PARBUCKLE_SERVER"] ?? "http://127.0.0.1:8000";

export default defineConfig({
  base: "/",
  plugins: [preact()],
  build: {
    outDir: process.env["PARBUCKLE_OUT"] ?? "../src/parbuckle/webui",
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0, // the page's policy allows no data: fonts
    reportCompressedSize: true,
  },
  server: { proxy: { "/api": server } },
  test: {
    environment: "happy-dom",
    include: ["src/**/*.test.{ts,tsx}"],
    restoreMocks: true,
  },
});
