// One room of one user, in the timeline of an independent client. Everything needed stands in the address.
import {
  Client, FeatureSet, LoadStatus, Platform, RoomViewModel, TimelineView, createNavigation, createRouter, viewClassForTile,
} from "hydrogen-view-sdk";
import downloadSandbox from "hydrogen-view-sdk/download-sandbox.html?url";
import worker from "hydrogen-view-sdk/main.js?url";
import olmWasm from "@matrix-org/olm/olm.wasm?url";
import olmBundle from "@matrix-org/olm/olm.js?url";
import olmLegacy from "@matrix-org/olm/olm_legacy.js?url";
import "hydrogen-view-sdk/assets/theme-element-light.css";

const asked = new URLSearchParams(window.location.search);
const assetPaths = {
  downloadSandbox,
  worker,
  olm: { wasm: olmWasm, legacyBundle: olmLegacy, wasmBundle: olmBundle },
  serviceWorker: "sw.js",
};

async function main() {
  const app = document.querySelector("#app");
  const platform = new Platform({ container: app, assetPaths, config: {}, options: { development: true } });
  const navigation = createNavigation();
  platform.setNavigation(navigation);
  await platform.init();
  const urlRouter = createRouter({ navigation, history: platform.history });
  urlRouter.attach();
  const client = new Client(platform);
  const login = await client.queryLogin(asked.get("homeserver")).result;
  client.startWithLogin(login.password(asked.get("user"), asked.get("password")));
  const settled = [LoadStatus.Ready, LoadStatus.Error, LoadStatus.LoginFailed];
  await client.loadStatus.waitFor((status) => settled.includes(status)).promise;
  if (!client.session) throw new Error(`login: ${client.loginFailure ?? client.loadError?.message}`);
  const { session } = client;
  const room = session.rooms.get(asked.get("room"));
  const features = await FeatureSet.load(platform.settingsStorage);
  const model = new RoomViewModel({ room, ownUserId: session.userId, platform, urlRouter, navigation, features });
  await model.load();
  app.appendChild(new TimelineView(model.timelineViewModel, viewClassForTile).mount());
  window.isShown = true;
}

main().catch((error) => { window.problem = String(error?.stack ?? error); });
